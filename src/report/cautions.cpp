#include <callfit/report/cautions.hpp>

namespace callfit {

std::string cautions_text() {
  std::string text = "Cautions:";
  for (const std::string_view caution : cautions) {
    text += ' ';
    text += caution;
  }
  return text;
}

}  // namespace callfit

#include <callfit/base/visible.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/table.hpp>

namespace callfit {

std::string cautions_text() {
  std::string text = "Cautions:";
  for (const std::string_view caution : cautions) {
    text += ' ';
    text += caution;
  }
  return text;
}

std::string with_cautions(const std::string& text) {
  return visible(text, "\n") + '\n' + wrapped(cautions_text(), text_width);
}

}  // namespace callfit

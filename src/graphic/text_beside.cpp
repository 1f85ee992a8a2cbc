#include <callfit/graphic/pictures.hpp>
#include <callfit/report/answer_text.hpp>
#include <callfit/report/cautions.hpp>

namespace callfit {

std::string text_beside(const Figure& drawing, const SayAnswer& say) {
  return with_cautions(say_text(say) + '\n' + drawing.title + '\n' + drawing.description + '\n');
}

}  // namespace callfit

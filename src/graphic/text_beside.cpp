#include <callfit/graphic/pictures.hpp>
#include <callfit/report/answer_text.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/record_text.hpp>
#include <callfit/report/table.hpp>

namespace callfit {

std::string text_beside(const Figure& drawing, const SayAnswer& say, const Case& about) {
  const std::string record = record_beside(say, about);
  return with_cautions(say_text(say) + '\n' + drawing.title + '\n' + drawing.description + '\n' +
                       (record.empty() ? "" : '\n' + wrapped(record)));
}

}  // namespace callfit

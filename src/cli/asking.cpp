#include "cli/asking.hpp"

#include <callfit/base/visible.hpp>
#include <callfit/report/answer_text.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/door.hpp>

#include <nlohmann/json.hpp>

namespace callfit::cli {
namespace {

using Json = nlohmann::ordered_json;

}  // namespace

Asked ask_all(Study& study, const std::vector<Request>& requests, const Progress& progress) {
  Asked asked;
  Json documents = Json::array();
  for (const Request& request : requests) {
    asked.answers.push_back(study.answer(request, progress));
    documents.push_back(Json::parse(answer_document(request, asked.answers.back(), study.about())));
    if (!asked.text.empty()) asked.text += '\n';
    asked.text += text_of(asked.answers.back());
  }
  asked.text = with_cautions(asked.text);
  const Json all = documents.size() == 1
                       ? documents.front()
                       : Json{{"format", "callfit-answers/1"}, {"answers", documents}};
  asked.json = all.dump(2) + '\n';
  return asked;
}

}  // namespace callfit::cli

#include <callfit/report/cautions.hpp>
#include <callfit/report/door.hpp>
#include <callfit/report/record_text.hpp>

#include "report/answer_json.hpp"
#include "report/request_json.hpp"

#include <format/json_print.hpp>

#include <nlohmann/json.hpp>

namespace callfit {

std::string request_to_json(const Request& request, const Case& about) {
  return readable(to_json(request, about));
}

std::string answer_document(const Request& request, const Answer& answer, const Case& about) {
  Json document{{"format", "callfit-answer/1"},
                {"kind", kind_of(request)},
                {"request", to_json(request, about)},
                {"answer", to_json(answer)}};
  if (const std::string record = record_beside(answer, about); !record.empty())
    document["record"] = record;
  document["cautions"] = cautions;
  return readable(document);
}

std::string error_document(const InputError& error) {
  Json findings = Json::array();
  for (const Finding& finding : error.findings())
    findings.push_back(
        {{"path", finding.place.field}, {"what", finding.what}, {"mend", finding.mend}});
  return readable(Json{{"format", "callfit-error/1"}, {"findings", std::move(findings)}});
}

}  // namespace callfit

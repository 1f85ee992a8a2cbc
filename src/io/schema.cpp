#include <callfit/base/nearest.hpp>
#include <io/json_text.hpp>
#include <io/schema.hpp>
#include <io/schema_text.hpp>
#include <io/schema_words.hpp>

#include <nlohmann/json.hpp>

#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

#include <algorithm>
#include <set>
#include <vector>

namespace callfit {
namespace {

using nlohmann::json;

constexpr std::string_view version = "/1";

void check_format(const json& document, std::string_view kind, Faults& faults) {
  const std::string wanted = std::string(kind) + std::string(version);
  if (!document.is_object()) {
    faults.add("", "is not a JSON object", "write {\"format\": \"" + wanted + "\", ...}");
  } else if (!document.contains("format")) {
    faults.add("/format", "is missing", "add \"format\": \"" + wanted + "\"");
  } else if (document.at("format") != wanted) {
    faults.add("/format", shown(document.at("format")) + " is not what is read here",
               "give a file of format \"" + wanted + "\"");
  }
  faults.settle();
}

/// Valijson writes a path as "<root>", "[key]", "[3]".
std::vector<std::string> tokens_of(const std::vector<std::string>& context) {
  std::vector<std::string> tokens;
  for (std::size_t i = 1; i < context.size(); ++i)
    tokens.push_back(context[i].substr(1, context[i].size() - 2));
  return tokens;
}

/// Whether something is wrong inside the value at `tokens` too.
bool deeper_spot(const std::set<std::vector<std::string>>& spots,
                 const std::vector<std::string>& tokens) {
  const auto next = spots.upper_bound(tokens);  // sorted: what lies inside follows at once
  return next != spots.end() && next->size() > tokens.size() &&
         std::equal(tokens.begin(), tokens.end(), next->begin());
}

}  // namespace

void validate(const json& document, std::string_view kind, const std::string& source) {
  Faults faults(source);
  check_format(document, kind, faults);

  const json schema_document = json::parse(schema_text(std::string(kind) + "-1"));
  valijson::Schema schema;
  valijson::SchemaParser().populateSchema(valijson::adapters::NlohmannJsonAdapter(schema_document),
                                          schema);
  valijson::Validator validator;
  valijson::ValidationResults results;
  if (validator.validate(schema, valijson::adapters::NlohmannJsonAdapter(document), &results))
    return;

  // A failed branch of a choice and its parents report again for the same spot: tell it once.
  std::set<std::vector<std::string>> spots;
  valijson::ValidationResults::Error error;
  while (results.popError(error))
    if (!error.description.starts_with("Failed to validate"))
      spots.insert(tokens_of(error.context));
  for (const std::vector<std::string>& tokens : spots)
    describe(document, schema_document, tokens, deeper_spot(spots, tokens), faults);
  faults.settle();
}

}  // namespace callfit

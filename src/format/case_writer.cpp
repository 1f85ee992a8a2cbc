#include <callfit/format/case.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/format/scheme.hpp>
#include <format/changes.hpp>
#include <format/documents.hpp>
#include <format/json_print.hpp>
#include <format/json_text.hpp>

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

using nlohmann::ordered_json;

// The setting that the document names or holds, laid over what it is based on.
ordered_json whole_setting(const nlohmann::json& document, const std::string& source,
                           const CaseTexts& texts, const Beside& beside) {
  const nlohmann::json& given = document.at("setting");
  if (!given.is_string()) return ordered_json::parse(merged_setting(given, source, beside).dump());
  const SourceText named = texts(CasePart::setting, given.get<std::string>(), source).value();
  return ordered_json::parse(
      merged_setting(parse_json(named.text, named.source), named.source, beside).dump());
}

}  // namespace

std::string with_tries(std::string_view text, const std::string& source,
                       const std::vector<Try>& tries) {
  parse_json(text, source);  // tells what is wrong with it, and where
  ordered_json document = ordered_json::parse(text);
  ordered_json list = ordered_json::array();
  for (const Try& one : tries)
    list.push_back({{"name", one.name}, {"changes", changes_json(one.changes)}});
  document["tries"] = std::move(list);
  document.erase(std::string(written_by_key));  // who writes it marks it anew
  return readable(document);
}

std::string whole_case(const Case& about, std::string_view text, const std::string& source,
                       const CaseTexts& texts, const Beside& beside) {
  const nlohmann::json given = parse_json(text, source);
  ordered_json document{{"format", "callfit-case/1"}, {"name", about.name}};
  document["setting"] = whole_setting(given, source, texts, beside);
  document["average_scheme"] = ordered_json::parse(scheme_to_json(about.average_scheme));
  for (const Scheme& scheme : about.schemes)
    document["schemes"].push_back(ordered_json::parse(scheme_to_json(scheme)));
  for (const Quarterback& quarterback : about.quarterbacks)
    document["quarterbacks"].push_back(
        {{"name", quarterback.profile.name},
         {"scheme", about.schemes[quarterback.scheme].name},
         {"profile", ordered_json::parse(profile_to_json(quarterback.profile, about.setting))}});
  document["options"] = {{"seed", about.options.seed},
                         {"draws", about.options.draws},
                         {"policy", word(about.options.policy)},
                         {"end_of_half", about.options.end_of_half},
                         {"assumed", about.options.assumed}};
  for (const char* key : {"tries", "page"})
    if (given.contains(key)) document[key] = ordered_json::parse(given.at(key).dump());
  document["tape_source"] = about.tape_source;
  if (!about.style.empty()) document["style"] = ordered_json::parse(about.style);
  return document.dump(2) + '\n';
}

}  // namespace callfit

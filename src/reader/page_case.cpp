#include <callfit/reader/page_case.hpp>

#include <callfit/format/case.hpp>
#include <callfit/format/net_values.hpp>
#include <callfit/format/record.hpp>
#include <callfit/report/door.hpp>
#include <format/documents.hpp>
#include <format/page_part.hpp>
#include <format/part.hpp>

#include <nlohmann/json.hpp>

#include <stdexcept>

namespace callfit {
namespace {

using nlohmann::ordered_json;

constexpr auto page_format = "callfit-page/1";
constexpr Sizes phrases_rule{0, 1000, "an object of phrases"};
constexpr auto first_anonymous = "New starter";

std::string anonymous_name(std::size_t place) {
  return place == 0 ? first_anonymous : "Other starter " + std::to_string(place + 1);
}

void number_games(ordered_json& profile) {
  std::size_t number = 0;
  for (ordered_json& game : profile["games"]) game["game"] = std::to_string(++number);
  profile.erase("about");
}

void number_sources(ordered_json& profile) {
  if (!profile.contains("evidence") || !profile["evidence"].contains("sources")) return;
  std::size_t number = 0;
  for (ordered_json& source : profile["evidence"]["sources"])
    source["name"] = "source " + std::to_string(++number);
}

void strip_quarterback(ordered_json& quarterback, std::size_t place, bool anonymous) {
  ordered_json& profile = quarterback["profile"];
  number_games(profile);
  if (!anonymous) return;
  number_sources(profile);
  quarterback["name"] = anonymous_name(place);
  profile["name"] = anonymous_name(place);
}

ordered_json stripped(std::string_view whole, bool anonymous) {
  ordered_json document = ordered_json::parse(whole);
  for (const char* key : {"name", "tries", "page", "tape_source", "style"}) document.erase(key);
  std::size_t place = 0;
  for (ordered_json& quarterback : document["quarterbacks"])
    strip_quarterback(quarterback, place++, anonymous);
  return document;
}

// What the case names beside itself: net values and the record alone, and those of the page.
CaseTexts texts_of(const std::string& net_values, const std::string& record,
                   const std::string& source) {
  return [net_values, record, source](CasePart part, const std::string& name,
                                      const std::string&) -> std::optional<SourceText> {
    if (part != CasePart::net_values && part != CasePart::record)
      return nothing_beside(name, source);
    const std::string& text = part == CasePart::record ? record : net_values;
    return text.empty() ? std::nullopt : std::optional(SourceText{text, source});
  };
}

Stand stand_from(const Part& part, const Case& about) {
  return part.object(R"({"quarterback": 1, "scheme": 1})", [&](Fields& fields) {
    const auto place = [&fields](const char* key, std::size_t size) {
      const Numbers rule{1, static_cast<double>(size), "a place in the case, from 1"};
      return static_cast<std::size_t>(fields.integer(key, rule) - 1);
    };
    Stand stand;
    stand.quarterback = place("quarterback", about.quarterbacks.size());
    stand.scheme = place("scheme", about.schemes.size());
    return stand;
  });
}

Case case_from(Fields& fields, const std::string& source) {
  const auto text_at = [&fields](const char* key) {
    return fields.maybe(key, [](const Part& part) { return part.value().dump(); }).value_or("");
  };
  const std::string net = text_at("net_values");
  const std::string record = text_at("record");
  return fields.needed("case", "a callfit-case/1", [&](const Part& part) {
    Findings notices;
    return case_of(part.value(), source, texts_of(net, record, source), nothing_beside, notices);
  });
}

}  // namespace

std::string page_case_text(std::string_view whole, const Case& about, const Stand& stand,
                           const std::vector<PageHandle>& handles, const Wording& wording,
                           bool anonymous) {
  ordered_json document{{"format", page_format}, {"case", stripped(whole, anonymous)}};
  if (about.net)
    document["net_values"] = ordered_json::parse(
        net_values_to_json(*about.net, net_values_key(about.setting, about.average_scheme)));
  if (about.record) document["record"] = ordered_json::parse(record_to_json(*about.record));
  document["stand"] = {{"quarterback", stand.quarterback + 1}, {"scheme", stand.scheme + 1}};
  if (!handles.empty()) document["handles"] = handles_json(handles);
  document["phrases"] = wording.changed();
  return document.dump();
}

PageCase parse_page_case(std::string_view text, const std::string& source) {
  return read_document(parse_json(text, source), "callfit-page", source, [&](Fields& fields) {
    PageCase held;
    held.about = case_from(fields, source);
    held.stand = fields.needed("stand", "a stand",
                               [&](const Part& part) { return stand_from(part, held.about); });
    held.handles = fields.maybe("handles", handles_from).value_or(std::vector<PageHandle>{});
    fields.entries("phrases", phrases_rule, [&held](const Part& part, const std::string& key) {
      held.phrases[key] = part.text();
      return 0;
    });
    return held;
  });
}

}  // namespace callfit

#include "small.hpp"

#include <callfit/files/files.hpp>
#include <callfit/format/setting.hpp>
#include <format/documents.hpp>
#include <format/json_text.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <set>
#include <sstream>
#include <string_view>

namespace callfit::fuzz {
namespace {

using nlohmann::json;

constexpr std::size_t first_entries = 3;
constexpr std::array<std::string_view, 3> kept_families{"screen", "qb_draw", "handoff"};

bool is_dropped_family(const std::string& id) {
  static const std::set<std::string> dropped = [] {
    std::set<std::string> ids;
    const json families = json::parse(file("schemes/families.json"));
    for (const json& family : families.at("families"))
      ids.insert(family.at("id").get<std::string>());
    for (const std::string_view id : kept_families) ids.erase(std::string(id));
    return ids;
  }();
  return dropped.contains(id);
}

bool speaks_of_dropped(const json& value) {
  if (value.is_string()) return is_dropped_family(value.get<std::string>());
  return value.is_structured() && std::any_of(value.begin(), value.end(), speaks_of_dropped);
}

/// Keys for people, which readers pass over.
bool is_note(const std::string& key) {
  static constexpr std::array<std::string_view, 3> ends{"why", "interval90", "standard_error"};
  return std::any_of(ends.begin(), ends.end(),
                     [&](std::string_view end) { return key.ends_with(end); });
}

json cut(const json& value) {
  if (value.is_object()) {
    json out = json::object();
    for (const auto& [key, entry] : value.items())
      if (!is_dropped_family(key) && !is_note(key)) out[key] = cut(entry);
    return out;
  }
  if (!value.is_array() || value.empty() || !value.front().is_object()) return value;
  json out = json::array();
  for (const json& entry : value)
    if (!speaks_of_dropped(entry) && (out.size() < first_entries || &entry == &value.back()))
      out.push_back(cut(entry));
  return out;
}

/// Traits on which something still hangs.
std::set<std::string> hung_on(const json& value) {
  std::set<std::string> traits;
  if (value.is_object() && value.contains("trait")) traits.insert(value.at("trait"));
  if (value.is_structured())
    for (const json& entry : value) traits.merge(hung_on(entry));
  return traits;
}

void erase_unhung(json& by_trait, const std::set<std::string>& hung) {
  const json all = by_trait;
  for (const auto& [trait, ignored] : all.items())
    if (!hung.contains(trait)) by_trait.erase(trait);
}

void drop_unhung_traits(json& population) {
  std::set<std::string> hung = hung_on(population.at("rates"));
  hung.merge(hung_on(population.at("gains")));
  erase_unhung(population.at("traits"), hung);
  for (json& level : population.at("levels"))
    if (level.contains("shift")) erase_unhung(level.at("shift"), hung);
}

json small_setting() {
  const auto beside = [](const std::string& name, const std::string&) {
    return SourceText{file("settings/" + name), name};
  };
  json setting =
      cut(merged_setting(parse_json(file("settings/pro.json"), "pro.json"), "pro.json", beside));
  drop_unhung_traits(setting.at("population"));
  setting["average_scheme"] = "balanced.json";
  json punt = setting.at("punt").back();  // they have to cover the field
  punt["yards_to_goal"] = {1, 99};
  setting["punt"] = json::array({punt});
  return setting;
}

}  // namespace

std::string file(const std::string& name) {
  Files files;
  return files.read(std::string(CALLFIT_SOURCE_DIR) + "/" + name);
}

std::string small_setting_text() { return small_setting().dump(); }

std::string plain_setting_text() {
  json setting = small_setting();
  setting.erase("population");
  return setting.dump();
}

std::string small_families_text() { return cut(json::parse(file("schemes/families.json"))).dump(); }

std::string small_scheme_text(const std::string& name) {
  return cut(json::parse(file("schemes/" + name))).dump();
}

std::string small_chart_text(const std::string& name, int rows) {
  std::istringstream lines(file("profiles/demo/" + name));
  std::string line;
  std::getline(lines, line);
  std::string out = line + '\n';
  while (rows > 0 && std::getline(lines, line)) {
    const bool keeps =
        std::any_of(kept_families.begin(), kept_families.end(), [&](std::string_view id) {
          return line.find(',' + std::string(id) + ',') != std::string::npos;
        });
    if (!keeps) continue;
    out += line + '\n';
    --rows;
  }
  return out;
}

}  // namespace callfit::fuzz

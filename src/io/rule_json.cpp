#include <io/rule_json.hpp>

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

constexpr int field_high = 99;

bool covers(const Band& band, int low, int high) { return band.low <= low && band.high >= high; }

void put(nlohmann::ordered_json& when, const char* key, const Band& band, int highest) {
  if (covers(band, 1, highest)) return;
  when[key] = {std::max(band.low, 1), std::min(band.high, highest)};
}

}  // namespace

Band band_from_json(const nlohmann::json& range, const std::string& pointer, Faults& faults) {
  const Band band{range.at(0).get<int>(), range.at(1).get<int>()};
  if (band.low > band.high)
    faults.add(pointer, "the range " + range.dump() + " runs backwards",
               "give [low, high] with low at most high");
  return band;
}

SituationRule rule_from_json(const nlohmann::json& when, const std::string& pointer,
                             Faults& faults) {
  SituationRule rule;
  const auto read = [&](const char* key, Band& band) {
    if (when.contains(key)) band = band_from_json(when.at(key), child(pointer, key), faults);
  };
  read("down", rule.down);
  read("to_go", rule.to_go);
  read("yards_to_goal", rule.yards_to_goal);
  return rule;
}

nlohmann::ordered_json rule_to_json(const SituationRule& rule) {
  auto when = nlohmann::ordered_json::object();
  put(when, "down", rule.down, 4);
  put(when, "to_go", rule.to_go, field_high);
  put(when, "yards_to_goal", rule.yards_to_goal, field_high);
  return when;
}

bool matches_everything(const SituationRule& rule) {
  return covers(rule.down, 1, 4) && covers(rule.to_go, 1, field_high) &&
         covers(rule.yards_to_goal, 1, field_high);
}

}  // namespace callfit

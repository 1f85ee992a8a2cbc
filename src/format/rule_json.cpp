#include <format/rule_json.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <vector>

namespace callfit {
namespace {

constexpr int field_high = 99;

bool covers(const Band& band, int low, int high) { return band.low <= low && band.high >= high; }

void put(nlohmann::ordered_json& when, const char* key, const Band& band, int highest) {
  if (covers(band, 1, highest)) return;
  when[key] = {std::max(band.low, 1), std::min(band.high, highest)};
}

}  // namespace

Band band_from(const Part& part, int lowest, int highest) {
  constexpr Sizes two{2, 2, range_want};
  const Numbers within{static_cast<double>(lowest), static_cast<double>(highest)};
  const std::vector<int> ends =
      part.list(two, [&](const Part& end) { return end.integer(within); });
  if (ends.size() != 2 || !part.sound()) return {};
  if (ends[0] > ends[1])
    part.fault("the range " + part.value().dump() + " runs backwards",
               "give [low, high] with low at most high");
  return {ends[0], ends[1]};
}

SituationRule rule_from(const Part& part) {
  const auto band = [](const Part& range) { return band_from(range); };
  return part.object(when_want, [&](Fields& when) {
    SituationRule rule;
    rule.down = when.maybe("down", band).value_or(Band{});
    rule.to_go = when.maybe("to_go", band).value_or(Band{});
    rule.yards_to_goal = when.maybe("yards_to_goal", band).value_or(Band{});
    return rule;
  });
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

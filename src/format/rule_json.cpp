#include <format/rule_json.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <vector>

namespace callfit {
namespace {

constexpr int highest_down = 4;
constexpr int field_high = 99;

bool covers(const Band& band, int low, int high) { return band.low <= low && band.high >= high; }

Band within(const Band& band, int highest) {
  return {std::max(band.low, 1), std::min(band.high, highest)};
}

void put(nlohmann::ordered_json& when, const char* key, const Band& band, int highest) {
  if (covers(band, 1, highest)) return;
  const auto [low, high] = within(band, highest);
  when[key] = {low, high};
}

// As narrow as the field: one that reaches all of it has no ends.
Band rule_band(const Part& range, int highest) {
  const Band given = band_from(range);
  if (covers(given, 1, highest)) return {};
  const Band band = within(given, highest);
  if (range.sound() && band.low > band.high)
    range.fault("reaches nothing", fmt::format("give a range within 1 to {}", highest));
  return band;
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
  return part.object(when_want, [](Fields& when) {
    const auto band = [&when](const char* key, int highest) {
      const auto read = [highest](const Part& range) { return rule_band(range, highest); };
      return when.maybe(key, read).value_or(Band{});
    };
    return SituationRule{band("down", highest_down), band("to_go", field_high),
                         band("yards_to_goal", field_high)};
  });
}

nlohmann::ordered_json rule_to_json(const SituationRule& rule) {
  auto when = nlohmann::ordered_json::object();
  put(when, "down", rule.down, highest_down);
  put(when, "to_go", rule.to_go, field_high);
  put(when, "yards_to_goal", rule.yards_to_goal, field_high);
  return when;
}

bool matches_everything(const SituationRule& rule) {
  return covers(rule.down, 1, highest_down) && covers(rule.to_go, 1, field_high) &&
         covers(rule.yards_to_goal, 1, field_high);
}

}  // namespace callfit

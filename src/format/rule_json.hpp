// Situation rules as JSON: {"down": [3, 3], "to_go": [7, 99], "yards_to_goal": [1, 20]}.
#pragma once

#include <callfit/scheme/scheme.hpp>
#include <format/part.hpp>

#include <nlohmann/json_fwd.hpp>
#include <string_view>

namespace callfit {

inline constexpr std::string_view range_want = "an inclusive range of whole numbers [low, high]";

/// An inclusive range [low, high] of whole numbers within [lowest, highest].
Band band_from(const Part& part, int lowest = 0, int highest = 100);

inline constexpr std::string_view when_want =
    R"(a rule such as {"down": [3, 3], "to_go": [7, 99]}; {} matches everything)";

/// A rule; missing keys match anything.
SituationRule rule_from(const Part& part);

nlohmann::ordered_json rule_to_json(const SituationRule& rule);

/// Whether the rule matches every situation on a field.
bool matches_everything(const SituationRule& rule);

}  // namespace callfit

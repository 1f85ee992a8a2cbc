// Situation rules as JSON: {"down": [3, 3], "to_go": [7, 99], "yards_to_goal": [1, 20]}.
#pragma once

#include <callfit/scheme/scheme.hpp>
#include <io/json_text.hpp>

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace callfit {

/// An inclusive range [low, high]; adds a fault when it runs backwards.
Band band_from_json(const nlohmann::json& range, const std::string& pointer, Faults& faults);

/// A rule that fits its schema; missing keys match anything.
SituationRule rule_from_json(const nlohmann::json& when, const std::string& pointer,
                             Faults& faults);

nlohmann::ordered_json rule_to_json(const SituationRule& rule);

/// Whether the rule matches every situation on a field.
bool matches_everything(const SituationRule& rule);

}  // namespace callfit

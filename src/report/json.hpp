// Parts of JSON results that several documents share; docs/results.md describes them.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/stats/interval.hpp>

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace callfit {

using Json = nlohmann::ordered_json;

Json to_json(const Interval& interval);  ///< [low, high]
Json to_json(const Number& number);
Json to_json(const About& about);
Json to_json(const Method& method);
Json to_json(const DriveValues& values);
Json to_json(const DifferenceAnswer& difference);
Json to_json(const Moved& moved);
Json to_json(const TryResult& result);
Json to_json(const LeverAnswer& lever);
Json package_json(const Package& package);
Json limits_json(const TailorLimits& limits);

/// `words` say the verdict in the words of its question.
Json verdict_json(const Verdict& verdict, const std::string& words);

std::string_view unit_word(KnobUnit unit);
std::string_view measure_unit_word(bool in_yards);

/// Throws std::logic_error where any number in the value is NaN or infinite.
void require_finite(const Json& json);

}  // namespace callfit

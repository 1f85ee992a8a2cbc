// Changes of paths as JSON: {"path": "rate.deep_outside.completion", "set": 0.4}.
#pragma once

#include <callfit/ask/case.hpp>
#include <format/part.hpp>

#include <string_view>
#include <vector>

namespace callfit {

inline constexpr std::string_view changes_want = "a list of changes; an empty list changes nothing";

/// A list of changes, each with either "set" or "scale".
std::vector<Change> changes_from(const Part& part);

/// The same list that reads back.
nlohmann::ordered_json changes_json(const std::vector<Change>& changes);

}  // namespace callfit

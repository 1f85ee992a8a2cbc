// What opponents allowed to others, from CSV. docs/formats.md describes the columns.
#pragma once

#include <callfit/profile/around.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Throws one InputError with everything that is wrong: an opponent given twice at a level, counts
/// that contradict themselves, a row that says neither counts nor a place.
std::vector<OpponentRecord> parse_opponents(std::string_view text, const std::string& source);

}  // namespace callfit

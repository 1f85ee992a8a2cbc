// Lists of play families as JSON.
#pragma once

#include <callfit/scheme/scheme.hpp>
#include <format/part.hpp>

#include <string>
#include <vector>

namespace callfit {

inline constexpr Texts id_rule{
    1, 60,
    "an id of small letters, digits and underscores that begins with a letter, such as deep_middle",
    is_id};
inline constexpr Texts name_id_rule{
    1, 60,
    "an id of small letters, digits, hyphens and underscores that begins with a letter, such as "
    "wide-zone-boot",
    is_name_id};

inline constexpr Sizes families_rule{1, 100, "a list of play families"};

/// Families of a list; an id that stands twice is a fault.
std::vector<Family> families_from(const Part& list, const Sizes& rule = families_rule);

std::vector<std::string> ids_of(const std::vector<Family>& families);

}  // namespace callfit

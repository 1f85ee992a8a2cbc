// Schemes and family lists as JSON. docs/formats.md describes both formats.
#pragma once

#include <callfit/format/beside.hpp>
#include <callfit/scheme/scheme.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Families of "callfit-families/1" text. Throws InputError.
std::vector<Family> parse_families(std::string_view text, const std::string& source);

/// A scheme from "callfit-scheme/1" text; `beside` finds its list of families where it names one.
/// Call weights come back as shares that sum to 1. Throws one InputError with everything that is
/// wrong.
Scheme parse_scheme(std::string_view text, const std::string& source,
                    const Beside& beside = nothing_beside);

/// The scheme as "callfit-scheme/1" text with its families inline; read back it is the same.
std::string scheme_to_json(const Scheme& scheme);

}  // namespace callfit

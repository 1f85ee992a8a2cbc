// Schemes and family lists as JSON. docs/formats.md describes both formats.
#pragma once

#include <callfit/scheme/scheme.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Families of a "callfit-families/1" file. Throws InputError.
std::vector<Family> read_families(const std::string& path);

/// A scheme from a "callfit-scheme/1" file. Families named by file are looked for beside it. Call
/// weights come back as shares that sum to 1. Throws one InputError with everything that is wrong.
Scheme read_scheme(const std::string& path);

/// The same from text; `folder` is where a families file is looked for.
Scheme parse_scheme(std::string_view text, const std::string& source, const std::string& folder);

/// The scheme as "callfit-scheme/1" text with its families inline; read back it is the same.
std::string scheme_to_json(const Scheme& scheme);

}  // namespace callfit

// Kept answers as JSON: docs/formats.md describes the file.
#pragma once

#include <callfit/ask/answer.hpp>

#include <string>
#include <string_view>

namespace callfit {

/// "callfit-kept/1" text, one answer.
std::string kept_to_json(const KeptAnswer& kept);

/// Throws one InputError with everything that is wrong.
KeptAnswer parse_kept(std::string_view text, const std::string& source);

/// Throws InputError unless the text is a date such as 2026-11-28.
void require_date(const std::string& date);

}  // namespace callfit

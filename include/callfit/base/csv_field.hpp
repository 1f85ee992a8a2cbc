#pragma once

#include <string>
#include <string_view>

namespace callfit {

/// A field of a row of CSV, in quotes where it needs them (RFC 4180).
std::string csv_field(std::string_view text, char separator = ',');

}  // namespace callfit

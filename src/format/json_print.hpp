#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace callfit {

/// JSON for people: two spaces a level, small objects and lists of plain values on one line.
/// Numbers are written so that they read back bit for bit. Ends with a line break.
std::string readable(const nlohmann::ordered_json& document);

/// For programs, on one line; bytes that are no UTF-8 are replaced, as a message about such bytes
/// has them.
std::string one_line(const nlohmann::ordered_json& value);

}  // namespace callfit

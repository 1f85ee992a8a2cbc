#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace callfit {

/// The key by which callfit knows documents that it wrote; every reader passes it over.
inline constexpr std::string_view written_by_key = "written_by";

/// What is longer, deeper or made of more values is refused before it is read.
inline constexpr std::size_t longest_json = std::size_t{64} << 20U;  ///< bytes
inline constexpr std::size_t deepest_json = 64;                      ///< levels
inline constexpr std::size_t most_json_values = 4'000'000;

/// Whether a text means to be JSON: its first character that is no blank opens an object or a list.
bool is_json_text(std::string_view text);

/// The value of the top-level "format" key of JSON text, such as "callfit-scheme/1"; empty when
/// there is none. Throws InputError when the text is not JSON.
std::string format_of(std::string_view text, const std::string& source);

}  // namespace callfit

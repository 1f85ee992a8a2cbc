// Text that is not UTF-8 into UTF-8.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace callfit {

/// Whether the text begins with a byte order mark of UTF-16.
bool is_utf16(std::string_view text);
/// From UTF-16 behind a byte order mark; nothing where the text is ill-formed.
std::optional<std::string> from_utf16(std::string_view text);
/// From Windows-1252 (the code page as Unicode's mapping tables give it); nothing where a byte has
/// no character.
std::optional<std::string> from_windows_1252(std::string_view text);

}  // namespace callfit

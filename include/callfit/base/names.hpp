// Words for enumerators, in one place: a type opts in by specialising `enum_words`.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Specialise as a constexpr std::array<std::string_view, N>, in the order of the enumerators.
template <class Enum>
inline constexpr int enum_words = 0;

template <class Enum>
constexpr std::string_view word(Enum value) {
  return enum_words<Enum>[static_cast<std::size_t>(value)];
}

template <class Enum>
constexpr std::optional<Enum> from_word(std::string_view text) {
  const auto& words = enum_words<Enum>;
  const auto found = std::find(words.begin(), words.end(), text);
  if (found == words.end()) return std::nullopt;
  return static_cast<Enum>(found - words.begin());
}

/// "field_goal" -> "field goal": a word as people write it.
inline std::string plain(std::string_view name) {
  std::string text(name);
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

template <class Enum>
std::vector<std::string> all_words() {
  return {enum_words<Enum>.begin(), enum_words<Enum>.end()};
}

}  // namespace callfit

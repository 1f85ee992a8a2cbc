// Names inside sentences.
#pragma once

#include <algorithm>
#include <string>

namespace callfit {

/// Marks (FSI ... PDI) around a name that may run from right to left, so that its direction does
/// not disturb the sentence. Nothing below U+0580 does, whose UTF-8 begins with lower bytes.
inline std::string isolated(const std::string& name) {
  constexpr unsigned char first = 0xD6;
  const bool may_turn = std::any_of(name.begin(), name.end(), [](char byte) {
    return static_cast<unsigned char>(byte) >= first;
  });
  // The marks are the point. NOLINTNEXTLINE(misc-misleading-bidirectional)
  return may_turn ? "\u2068" + name + "\u2069" : name;
}

}  // namespace callfit

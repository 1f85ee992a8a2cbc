// Where a series stands, packed so that drives in step can move it on without a branch.
#pragma once

#include <drive/states.hpp>

#include <array>
#include <cstddef>
#include <cstdint>

namespace callfit::drive {

// Compilers turn conditions into branches, which cost most where they depend on a draw; arithmetic
// stays what it is.
constexpr std::uint32_t one_if_less(std::uint32_t a, std::uint32_t b) { return a < b ? 1 : 0; }
constexpr std::uint32_t mask(std::uint32_t one) { return 0 - one; }

/// Down and line to gain: the index of the places (state_index less the own yard line) and the own
/// yard of the last place short of the line.
class SeriesLine {
 public:
  constexpr SeriesLine() = default;
  constexpr SeriesLine(int down, int line)
      : packed_(static_cast<std::uint32_t>(state_index(down, line, 1)) << yard_bits |
                static_cast<std::uint32_t>(spots_short_of(line))) {}
  /// First down after the ball came to `own`, 1 to 99.
  static constexpr SeriesLine fresh_at(std::uint32_t own) {
    const std::uint32_t beyond = own + series_yards;
    const std::uint32_t line = (field_length - beyond) & mask(one_if_less(beyond, field_length));
    const std::uint32_t start = line * last_spot - line * (line - 1) / 2;
    return unpack(start << yard_bits | (last_spot - line));
  }
  static constexpr SeriesLine unpack(std::uint32_t packed) {
    SeriesLine line;
    line.packed_ = packed;
    return line;
  }

  constexpr std::uint32_t packed() const { return packed_; }
  constexpr std::uint32_t place(std::uint32_t own) const {
    return (packed_ >> yard_bits) + own - 1;
  }
  constexpr std::uint32_t last_short() const { return packed_ & ((1U << yard_bits) - 1); }
  /// `used` and `yes` are 0 or 1. A fifth down is what comes after the fourth.
  constexpr void next_down_if(std::uint32_t used) {
    packed_ += (states_per_down << yard_bits) & mask(used);
  }
  constexpr void become_if(std::uint32_t yes, SeriesLine other) {
    packed_ ^= (packed_ ^ other.packed_) & mask(yes);
  }

 private:
  static constexpr int yard_bits = 8;
  std::uint32_t packed_ = 0;
};

}  // namespace callfit::drive

// How the states of a drive are laid out: by down, then by the line to gain (its yards to goal;
// 0 is the goal line), then by the ball's own yard line (100 - yards_to_goal).
//
// A series keeps its line until it ends, and every new line lies nearer the goal than the ball
// did. That is what lets the exact engine solve one line after the other.
#pragma once

#include <callfit/drive/drive.hpp>

#include <algorithm>
#include <cstddef>

namespace callfit::drive {

inline constexpr int down_count = 4;
inline constexpr int field_length = 100;                ///< yards between the goal lines
inline constexpr int last_spot = field_length - 1;      ///< largest yards_to_goal
inline constexpr int line_count = last_spot;            ///< lines to gain: 0 to 98
inline constexpr int series_yards = 10;                 ///< to go on first down
inline constexpr std::uint32_t states_per_down = 4950;  ///< sum over lines of their spots
inline constexpr std::size_t state_count = std::size_t{down_count} * states_per_down;

/// Spots short of the line: own yards 1 to spots_short_of(line).
constexpr int spots_short_of(int line) { return last_spot - line; }

constexpr std::size_t line_start(int line) {
  return static_cast<std::size_t>(line * last_spot - line * (line - 1) / 2);
}

/// Index within a down.
constexpr std::size_t place_index(int line, int own_yard) {
  return line_start(line) + static_cast<std::size_t>(own_yard - 1);
}

constexpr std::size_t state_index(int down, int line, int own_yard) {
  return static_cast<std::size_t>(down - 1) * states_per_down + place_index(line, own_yard);
}

/// The first state of fourth down.
inline constexpr std::size_t fourth_down = state_index(down_count, 0, 1);

constexpr std::size_t state_index(const DriveState& state) {
  return state_index(state.down, state.yards_to_goal - state.to_go,
                     field_length - state.yards_to_goal);
}

/// The line to gain of a series that starts `yards_to_goal` yards from the goal.
constexpr int line_of_series(int yards_to_goal) {
  return std::max(0, yards_to_goal - series_yards);
}

static_assert(line_start(line_count) == states_per_down);

}  // namespace callfit::drive

#pragma once

#include <cstddef>

namespace callfit {

/// Games of one tape that a profile is built from; games, and opponents, that it can keep.
inline constexpr std::size_t most_games = 1000;

}  // namespace callfit

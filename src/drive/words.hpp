// Random words of drives. Drive i uses the words that (seed, drive_outcome, i) stands for alone.
#pragma once

#include <base/philox.hpp>
#include <callfit/base/random.hpp>

#include <array>
#include <cstddef>
#include <cstdint>

namespace callfit::drive {

/// A block of the generator gives eight words.
inline constexpr std::size_t block_words = 8;
using Block = std::array<std::uint32_t, block_words>;

/// What a block is for: the steps of one drive, or the starts of eight.
enum class Use : std::uint64_t { steps, starts };

/// Block number `index` of a unit: a drive, or eight of them.
inline Block draw_block(std::uint64_t seed, Use use, std::uint64_t unit, std::uint64_t index) {
  constexpr auto purpose = static_cast<std::uint64_t>(Purpose::drive_outcome);
  const auto words = philox({unit, index, static_cast<std::uint64_t>(use), 0}, {seed, purpose});
  Block block;
  for (std::size_t i = 0; i < words.size(); ++i) {
    block[2 * i] = static_cast<std::uint32_t>(words[i]);
    block[2 * i + 1] = static_cast<std::uint32_t>(words[i] >> 32);
  }
  return block;
}

}  // namespace callfit::drive

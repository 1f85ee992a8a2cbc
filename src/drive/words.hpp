// Random words of drives. The words of a unit of drives depend on the seed and on its number alone.
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

/// What words are for: the starts of a unit's drives, or the steps of those of one class.
enum class Use : std::uint64_t { starts = 1, steps };

/// The words of one use, block by block.
class Words {
 public:
  Words(std::uint64_t seed, std::uint64_t unit, Use use, std::uint64_t quality = 0)
      : seed_(seed), unit_(unit), use_(static_cast<std::uint64_t>(use)), quality_(quality) {}

  Block next() {
    constexpr auto purpose = static_cast<std::uint64_t>(Purpose::drive_outcome);
    const auto words = philox({unit_, index_++, use_, quality_}, {seed_, purpose});
    Block block;
    for (std::size_t i = 0; i < words.size(); ++i) {
      block[2 * i] = static_cast<std::uint32_t>(words[i]);
      block[2 * i + 1] = static_cast<std::uint32_t>(words[i] >> 32);
    }
    return block;
  }

 private:
  std::uint64_t seed_, unit_, use_, quality_;
  std::uint64_t index_ = 0;
};

}  // namespace callfit::drive

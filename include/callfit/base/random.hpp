// Counter-based random streams: a stream is a function of what it is for, not of when it is
// used, so results do not depend on threads or order.
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <string_view>

namespace callfit {

/// What a stream is used for; adding draws to one purpose never shifts another.
enum class Purpose : std::uint64_t {
  drive_outcome = 1,
  player_draw = 2,
  population_draw = 3,
  chart_draw = 4,
  sampling = 5,
  surroundings_draw = 6,
  reel = 7,
};

/// Philox4x64-10 (Salmon and others 2011, through Random123), keyed by (seed, purpose), counted
/// by (unit, block, part). Satisfies UniformRandomBitGenerator, so Boost.Random distributions take
/// it.
class Stream {
 public:
  using result_type = std::uint64_t;

  /// A stream for one `unit` (a posterior draw, a quarterback) of one `purpose` under `seed`, or
  /// for one `part` of a unit.
  Stream(std::uint64_t seed, Purpose purpose, std::uint64_t unit, std::uint64_t part = 0);

  static constexpr result_type min() { return 0; }
  static constexpr result_type max() { return std::numeric_limits<result_type>::max(); }

  result_type operator()() {
    if (used_ == block_.size()) refill();
    return block_[used_++];
  }

  /// Uniform on [0, 1) with 53 random bits.
  double uniform() { return static_cast<double>((*this)() >> 11) * 0x1.0p-53; }

 private:
  void refill();

  std::array<std::uint64_t, 2> key_;
  std::uint64_t unit_;
  std::uint64_t part_;
  std::uint64_t block_index_ = 0;
  std::array<std::uint64_t, 4> block_{};
  std::size_t used_ = 4;
};

/// One Philox4x64-10 block: the generator itself, for known-answer tests.
std::array<std::uint64_t, 4> philox_block(const std::array<std::uint64_t, 4>& counter,
                                          const std::array<std::uint64_t, 2>& key);

/// Seed used where the user names none; printed in every result.
inline constexpr std::uint64_t default_seed = 20260801;

}  // namespace callfit

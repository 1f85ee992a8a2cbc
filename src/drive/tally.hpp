// Integer tallies of drawn drives: merged in any order they give the same bits.
#pragma once

#include <callfit/drive/drive.hpp>
#include <drive/endings.hpp>

#include <algorithm>
#include <array>
#include <cstdint>

namespace callfit::drive {

struct DriveEnd {
  DriveResult result = DriveResult::downs;
  Slot slot = 0;
  std::uint32_t first_downs = 0;
  std::uint32_t plays = 0;
};

struct Tally {
  std::array<std::array<std::uint64_t, slot_count>, drive_result_count> ends{};
  std::uint64_t drives = 0;
  std::uint64_t first_downs = 0, first_downs_squared = 0;
  std::uint64_t plays = 0, plays_squared = 0;
  std::array<std::uint64_t, plays_told> by_plays{};

  void add(const DriveEnd& end) {  // in line: once a drive
    ++ends[static_cast<std::size_t>(end.result)][end.slot];
    ++drives;
    const std::uint64_t f = end.first_downs;
    const std::uint64_t p = end.plays;
    first_downs += f;
    first_downs_squared += f * f;
    plays += p;
    plays_squared += p * p;
    ++by_plays[std::min<std::size_t>(end.plays, plays_told - 1)];
  }
  void add(const Tally& other);
};

/// Drives from shares of starting yards_to_goal, as simulate_over() draws them.
Tally tally_over(const DriveModel& model, const std::vector<double>& start_share,
                 const SampleOptions& options, const Progress& progress = {});

/// Means and their standard errors: s / sqrt(n) with s^2 = (sum x^2 - n mean^2) / (n - 1).
SampledValues to_values(const Tally& tally, const Column& points, const Column& net);

}  // namespace callfit::drive

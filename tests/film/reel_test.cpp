// The honest reel: shares by largest remainder, chance alone chooses.
#include <callfit/film/reel.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace callfit {
namespace {

std::vector<FilmedSnap> tape(std::size_t complete, std::size_t incomplete, double seconds) {
  std::vector<FilmedSnap> snaps(complete, FilmedSnap{0, seconds});
  snaps.insert(snaps.end(), incomplete, FilmedSnap{1, seconds});
  return snaps;
}

std::size_t of_kind(const std::vector<FilmedSnap>& snaps, const std::vector<std::size_t>& reel,
                    std::size_t kind) {
  return static_cast<std::size_t>(std::count_if(
      reel.begin(), reel.end(), [&](std::size_t i) { return snaps[i].kind == kind; }));
}

}  // namespace

TEST_CASE("seats go by largest remainder") {
  // The method of Hamilton; the example's quotas are 4.7, 1.6, 1.58, 1.2, .6, .31 (textbook example
  // of 100,000 votes and ten seats, from memory).
  const std::array<std::size_t, 6> votes{47000, 16000, 15900, 12000, 6000, 3100};
  CHECK(largest_remainder(votes, 10) == std::vector<std::size_t>{5, 2, 1, 1, 1, 0});
  CHECK(largest_remainder(votes, 0) == std::vector<std::size_t>(6, 0));
  CHECK(largest_remainder(std::array<std::size_t, 2>{3, 1}, 9) == std::vector<std::size_t>{3, 1});
  CHECK(largest_remainder(std::array<std::size_t, 2>{0, 0}, 3) == std::vector<std::size_t>{0, 0});
}

TEST_CASE("a reel has the share of all film and fits its time") {
  const auto snaps = tape(40, 21, 6);
  const auto reel = honest_reel(snaps, 121, 7);
  CHECK(reel.size() == 20);
  CHECK(of_kind(snaps, reel, 0) == 13);  // 20 x 40 / 61 = 13.1
  CHECK(std::is_sorted(reel.begin(), reel.end()));
  CHECK(honest_reel(snaps, 121, 7) == reel);
  CHECK(honest_reel(snaps, 121, 8) != reel);
  CHECK(honest_reel(snaps, 5, 7).empty());
  CHECK(honest_reel(snaps, 1e6, 7).size() == snaps.size());
}

TEST_CASE("every snap of a kind is as likely in the reel as another") {
  const auto snaps = tape(12, 8, 5);
  constexpr std::size_t seeds = 4000;
  std::vector<double> met(snaps.size(), 0.0);
  for (std::uint64_t seed = 0; seed < seeds; ++seed)
    for (const std::size_t i : honest_reel(snaps, 50, seed)) met[i] += 1;
  // Ten of twenty: 6 of 12 and 4 of 8. Bounds: five standard errors of a share of a half.
  for (const double count : met) CHECK(std::abs(count / seeds - 0.5) < 5 * 0.5 / std::sqrt(seeds));
}

}  // namespace callfit

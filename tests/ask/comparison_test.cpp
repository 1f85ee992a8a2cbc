#include <callfit/ask/comparison.hpp>
#include <callfit/ask/field.hpp>

#include <catch2/catch.hpp>

#include <numeric>

using namespace callfit;

namespace {

Worth worth_with(std::vector<double> net) {
  Worth worth;
  for (const double value : net) worth.draws.push_back({value + 2, value});
  worth.points = {2, {2, 2}};
  worth.net_points = {
      std::accumulate(net.begin(), net.end(), 0.0) / static_cast<double>(net.size()), {0, 0}};
  return worth;
}

}  // namespace

// Type 7 quantiles of 1..10 at 0.05 and 0.95 are 1.45 and 9.55 (R: quantile(1:10, c(.05, .95))).
TEST_CASE("interval ends are type 7 quantiles, in any order of the sample") {
  std::vector<double> sample{10, 9, 8, 7, 6, 5, 4, 3, 2, 1};
  const Interval interval = interval90_of(sample);
  CHECK(interval.low == Approx(1.45));
  CHECK(interval.high == Approx(9.55));
  CHECK(interval90_of({3}).low == 3);
  CHECK_THROWS_AS(interval90_of({}), std::invalid_argument);
}

TEST_CASE("a difference carries both posteriors and scales to a game") {
  const Difference d =
      difference_of(worth_with({0.1, 0.2, 0.3, 0.4}), worth_with({0.0, 0.3, 0.1, 0.5}), 11);
  CHECK(d.chance_first_better == Approx(0.5));
  CHECK(d.net_per_drive.value == Approx(0.25 - 0.225));
  CHECK(d.net_per_game.value == Approx(11 * d.net_per_drive.value));
  CHECK(d.net_per_game.interval90.low == Approx(11 * d.net_per_drive.interval90.low));
}

TEST_CASE("chances of being best sum to one and ties are shared") {
  const Worth a = worth_with({1, 0, 2, 1});
  const Worth b = worth_with({0, 1, 2, 1});
  const Worth c = worth_with({-1, -1, 2, -1});
  const auto chances = chances_of_being_best({&a, &b, &c});
  CHECK(chances[0] == Approx((1 + 1.0 / 3 + 0.5) / 4));
  CHECK(chances[1] == Approx((1 + 1.0 / 3 + 0.5) / 4));
  CHECK(chances[2] == Approx(1.0 / 12));
}

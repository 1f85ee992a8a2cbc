#include "derived.hpp"
#include "../calibration/world.hpp"
#include "../support/example_setting.hpp"

#include <callfit/profile/draws.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace callfit;
using namespace callfit::testing;

namespace {

// A player whose pass family does one thing only.
Player certain(const Setting& setting, double completion, int depth_bin, int yac_bin) {
  Player player = average_player(setting);
  PlayerFamily& family = player.families[pass_family];
  family.rate.fill(0);
  family.rate[static_cast<std::size_t>(Rate::completion)] = completion;
  std::fill(family.depth_bins.begin(), family.depth_bins.end(), 0.0);
  std::fill(family.yac_bins.begin(), family.yac_bins.end(), 0.0);
  family.depth_bins[static_cast<std::size_t>(depth_bin)] = 1;
  family.yac_bins[static_cast<std::size_t>(yac_bin)] = 1;
  return player;
}

}  // namespace

// By hand: depth bin 3 is 10 to 14 yards, yac bin 0 is exactly 0 yards; he completes .6.
TEST_CASE("derived rates follow from completions and yards") {
  const Setting setting = example_setting(false);
  const Player player = certain(setting, 0.6, 3, 0);
  const auto rate = [&](Rate wanted, Spot spot) {
    return derived_rate(player, setting, pass_family, wanted, {spot});
  };
  CHECK(rate(Rate::success, {1, 10, 75}) == Approx(0.6));
  CHECK(rate(Rate::success, {3, 10, 75}) == Approx(0.6));
  CHECK(rate(Rate::success, {3, 15, 75}) == 0);
  CHECK(rate(Rate::explosive, {1, 10, 75}) == 0);
  // Six yards from the goal a throw lands at most fifteen yards downfield, and the catch scores.
  CHECK(rate(Rate::success, {3, 6, 6}) == Approx(0.6));
  // An explosive gain needs the room for it.
  const Player deep = certain(setting, 0.5, 5, 0);
  CHECK(derived_rate(deep, setting, pass_family, Rate::explosive, {{1, 10, 75}}) == Approx(0.5));
  CHECK(derived_rate(deep, setting, pass_family, Rate::explosive, {{1, 10, 15}}) == 0);
}

TEST_CASE("a gain that just reaches the line succeeds less often where it is spotted short") {
  Setting setting = example_setting(false);
  const Player player = certain(setting, 0.6, 3, 0);
  const YardPmf& depth = setting.families[pass_family].depth->shape;
  double bin = 0;
  for (int yards = 10; yards <= 14; ++yards) bin += depth.at(yards);
  setting.spotted_short = 0.25;
  const auto success = [&](Spot spot) {
    return derived_rate(player, setting, pass_family, Rate::success, {spot});
  };
  CHECK(success({3, 10, 75}) == Approx(0.6 * (1 - 0.25 * depth.at(10) / bin)));
  CHECK(success({3, 9, 75}) == Approx(0.6));
  CHECK(success({2, 10, 75}) == Approx(0.6));  // six yards are enough
  CHECK(success({3, 10, 10}) == Approx(0.6));  // the goal line is reached or not
}

// 20,000 snaps drawn snap by snap: the share that gains enough lies within four standard errors.
TEST_CASE("derived rates are what charted snaps of the same player show") {
  const Setting setting = example_setting(false);
  const Player player = PlayerDraws::of_population(setting, {8}, 1).player_at(0);
  Stream stream(8, Purpose::chart_draw, 0);
  ChartPlan plan;
  plan.snaps = 20'000;
  const Chart chart = chart_of(player, setting, plan, stream);
  for (const Rate rate : {Rate::success, Rate::explosive})
    for (const std::size_t family : {pass_family, run_family}) {
      const auto& id = setting.families[family].id;
      double made = 0;
      double of = 0;
      for (Snap snap : chart.snaps) {
        if (snap.family != id) continue;
        snap.fumble_lost = false;
        of += 1;
        made += *trial(snap, rate, setting.success) ? 1 : 0;
      }
      const double share = made / of;
      const double error = std::sqrt(share * (1 - share) / of);
      const double derived = derived_rate(player, setting, family, rate, spots_of({chart}, id));
      INFO(word(rate) << " of " << id << ": counted " << share << ", derived " << derived);
      CHECK(std::abs(derived - share) < 4 * error);
      CHECK_FALSE(std::abs(derived * 1.2 - share) < 4 * error);  // the twin
    }
}

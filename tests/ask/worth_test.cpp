// Where points are far from linear the surrogate sees it and every draw is solved.
#include "toy.hpp"

#include <ask/worth.hpp>

#include <catch2/catch.hpp>

#include <cmath>

using namespace callfit;
using namespace callfit::ask;

namespace {

// Quarterbacks who hardly have anything in common: rates spread over most of what they can be.
Case wild() {
  Case about = toy::about();
  for (FamilyPopulation& family : about.setting.families)
    for (auto& rate : family.rates)
      if (rate) rate->spread = 0.7 * std::sqrt(rate->mean * (1 - rate->mean));
  for (Quarterback& quarterback : about.quarterbacks)
    quarterback.profile = build_profile("Anybody", {}, about.setting, weighting_of(about.setting));
  return about;
}

}  // namespace

TEST_CASE("a poor surrogate gives way to solving every draw, and says so") {
  Memory memory(wild(), 0);
  Standing& standing = memory.standing({});
  const Worth& worth = memory.worth(standing);
  CHECK(worth.method.all_exact);
  CHECK(worth.method.exact_solves > standing.sample->size());
  const Player some = standing.sample->player_at(7);
  CHECK(worth.net_points[7] == Approx(drive_points(*standing.matchup, some).net_points));
}

TEST_CASE("a usual population needs no more than a few solves") {
  Memory memory(toy::about(), 0);
  const Worth& worth = memory.worth(memory.standing({}));
  CHECK_FALSE(worth.method.all_exact);
  CHECK(worth.method.exact_solves <= 33);
}

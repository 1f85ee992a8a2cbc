// Where points are far from linear the surrogate sees it and every draw is solved; what is turned
// by hand keeps its ends.
#include "demo_case.hpp"
#include "toy.hpp"

#include <ask/memory.hpp>
#include <ask/worth.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <utility>

using namespace callfit;
using namespace callfit::ask;
using namespace callfit::testing;

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

// The family is called in the last situation alone; the first family takes its calls elsewhere.
Case with_one_place_of(const std::string& family, Case about) {
  Scheme& scheme = about.schemes[0];
  const std::size_t f = scheme.find_family(family);
  for (CallSituation& situation : scheme.situations) {
    situation.share_by_shell = {};
    if (&situation != &scheme.situations.back())
      situation.share[0] += std::exchange(situation.share[f], 0.0);
  }
  return about;
}

double apart(const std::vector<double>& some, const std::vector<double>& others) {
  const Number one = number_of(some);
  const Number other = number_of(others);
  return std::max(std::abs(one.low - other.low), std::abs(one.high - other.high));
}

}  // namespace

TEST_CASE("a poor surrogate gives way to solving every draw, and says so", "[plain]") {
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

TEST_CASE("what a turned stand takes over is worth hardly anything of its interval", "[plain]") {
  Memory memory(demo_case(default_draws), 0);
  const std::vector<Change> changes{
      {"rate.deep_outside.completion", Change::Way::set, 0.5, ""},
      {"rate.boot.sack", Change::Way::set, 0.2, ""},
      {"call.all.deep_outside", Change::Way::set, 0.2, ""},
  };
  for (const Change& change : changes) {
    Standing& standing = memory.standing({0, 0, {change}, false});
    const Worth& near = memory.worth(standing);
    const Worth whole =
        worth_of(standing.tangent, *standing.matchup, *standing.sample, *standing.mean, {0, 0});
    CHECK(near.method.exact_solves < 6);
    CHECK(whole.method.exact_solves > 3 * near.method.exact_solves);
    INFO(change.path);
    // Both are near the exact ends, not the same.
    CHECK(apart(near.net_points, whole.net_points) <= 0.5 * tolerated_end);
    // The twin: without its bend.
    std::vector<double> straight = near.net_points;
    for (double& net : straight) {
      const double t = net - near.tangent->at_mean().net_points;
      net -= near.net_bend.at(t);
    }
    CHECK(apart(straight, whole.net_points) > tolerated_end);
  }
}

TEST_CASE("points carried to the ends of the interval are those that solves find there") {
  Memory memory(demo_case(default_draws), 0);
  const Worth& near = memory.worth(memory.standing({0, 0, {}, false}));
  const auto turned = [&](const std::string& path, double to) -> Standing& {
    Standing& standing = memory.standing({0, 0, {{path, Change::Way::set, to, ""}}, false});
    memory.worth(standing);
    return standing;
  };
  const auto with_solves = [&](const Standing& standing) {
    return worth_near(near, nullptr, standing.tangent, *standing.matchup, *standing.sample,
                      *standing.mean, {0, 0});
  };
  struct Turn {
    std::string path;
    double to;
  };
  for (const auto& [path, to] :
       {Turn{"rate.deep_outside.completion", 0.5}, Turn{"rate.intermediate.completion", 0.6},
        Turn{"rate.boot.sack", 0.1}, Turn{"call.all.intermediate", 0.15},
        Turn{"call.all.deep_outside", 0.08}}) {
    INFO(path);
    const Standing& standing = turned(path, to);
    const Worth solved = with_solves(standing);
    CHECK(standing.worth->method.exact_solves + 2 == solved.method.exact_solves);
    CHECK(apart(standing.worth->net_points, solved.net_points) < 0.15 * tolerated_end);
  }
  // A family that is called no more has no derivatives of its own left.
  Memory rarely(with_one_place_of("deep_middle", demo_case(default_draws)), 0);
  const Worth& called = rarely.worth(rarely.standing({0, 0, {}, false}));
  const std::string place = rarely.about().schemes[0].situations.back().id;
  Standing& never =
      rarely.standing({0, 0, {{"call." + place + ".deep_middle", Change::Way::set, 0, ""}}, false});
  const std::size_t spent = rarely.worth(never).method.exact_solves;
  const Worth solved = worth_near(called, nullptr, never.tangent, *never.matchup, *never.sample,
                                  *never.mean, {0, 0});
  CHECK(spent + 2 == solved.method.exact_solves);
  CHECK(apart(never.worth->net_points, solved.net_points) < 0.15 * tolerated_end);
  // A far turn is solved for.
  const Standing& far = turned("call.all.deep_outside", 0.2);
  CHECK(far.worth->method.exact_solves == with_solves(far).method.exact_solves);
  // The twin: near's bend as it was.
  const Standing& standing = turned("rate.intermediate.completion", 0.7);
  const Worth unmoved = worth_beside(near, standing.tangent, *standing.sample, *standing.mean);
  CHECK(apart(unmoved.net_points, with_solves(standing).net_points) > 0.2 * tolerated_end);
}

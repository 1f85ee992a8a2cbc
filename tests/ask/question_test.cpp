// What-ifs, break-evens and packages on the drive tests' invented setting.
#include "toy.hpp"

#include <callfit/ask/break_even.hpp>
#include <callfit/ask/package.hpp>
#include <callfit/ask/whatif.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/stats/beta.hpp>
#include <callfit/stats/logit.hpp>

#include <catch2/catch.hpp>

#include <numeric>

using namespace callfit;

namespace {

double value_of(const Question& question, const std::string& path) {
  return find_knob(knobs_of(question), path).get(question);
}

Change set(const std::string& path, double value) { return {path, Change::Way::set, value, ""}; }

double sum(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

}  // namespace

TEST_CASE("a what-if without changes equals drives and differs by exactly nothing") {
  const Question question = toy::question();
  const WhatIf result = what_if(question, {}, toy::draws);
  const DriveValues drives =
      solve(compile_drives(*question.ground, question.mean)).over(question.ground->starts);
  CHECK(result.points_per_drive.before.value == drives.points);
  CHECK(result.net_per_drive.before.value == drives.net_points);
  CHECK(result.net_per_game.change.value == 0);
  CHECK(result.net_per_game.change.interval90.low == 0);
  CHECK(result.net_per_game.change.interval90.high == 0);
  CHECK(result.fit.change.value == 0);
  CHECK(result.chance_better == 0.5);
  CHECK(result.moved.empty());
}

TEST_CASE("every knob reads back what it was set to") {
  const Question question = toy::question();
  const auto knobs = knobs_of(question);
  CHECK(knobs.size() > 60);
  for (const Knob& knob : knobs) {
    if (knob.unit == KnobUnit::word || knob.path.starts_with("level.")) continue;
    const double now = knob.get(question);
    if (now == 0 || now == 1) continue;  // log-odds moves leave these where they are
    INFO(knob.path);
    const double wanted = knob.unit == KnobUnit::share ? 0.9 * now + 0.02 : 0.98 * now;
    CHECK(knob.get(with_knob(question, knob, wanted)) == Approx(wanted).epsilon(1e-9));
  }
}

TEST_CASE("a mix still sums to one, and what moved along is told") {
  const Question question = toy::question();
  const std::vector<Change> changes{set("call.rest.deep", 0.3)};
  const Question after = changed(question, changes);
  CHECK(sum(after.scheme.situations[2].share) == Approx(1).epsilon(1e-12));
  CHECK(after.scheme.situations[2].share[0] / after.scheme.situations[2].share[1] ==
        Approx(0.35 / 0.45));
  const auto moved = moved_knobs(question, after, changes);
  CHECK(moved.size() == 4);
  for (const Moved& entry : moved) CHECK(entry.asked == (entry.path == "call.rest.deep"));
}

TEST_CASE("draws keep their log-odds distance to the moved mean") {
  const Question question = toy::question();
  const Question after = changed(question, {set("rate.deep.completion", 0.5)});
  constexpr auto completion = static_cast<std::size_t>(Rate::completion);
  const double mean = value_of(question, "rate.deep.completion");
  for (std::uint64_t i = 0; i < 5; ++i) {
    const double was = question_draw(question, 3, i).families[1].rate[completion];
    const double is = question_draw(after, 3, i).families[1].rate[completion];
    CHECK(logit(is) - logit(was) == Approx(logit(0.5) - logit(mean)));
  }
}

// The direction and that it is sure, from the setting's 10% to its 90% point of the rate.
TEST_CASE("deep completion from a weak to a strong quarterback's raises points, with an interval") {
  const Setting setting = fixture::setting();
  const RatePopulation& deep =
      *setting.find_family("deep")->rates[static_cast<std::size_t>(Rate::completion)];
  const Beta population = Beta::of_moments(deep.mean, deep.spread * deep.spread);
  const Question low =
      changed(toy::question(), {set("rate.deep.completion", quantile(population, 0.1))});
  const WhatIf result =
      what_if(low, {set("rate.deep.completion", quantile(population, 0.9))}, toy::draws);
  CHECK(result.points_per_drive.change.value > 0);
  CHECK(result.points_per_drive.change.interval90.low > 0);
  CHECK(result.points_per_drive.change.interval90.low <
        result.points_per_drive.change.interval90.high);
  CHECK(result.chance_better == 1);
}

TEST_CASE("wrong paths and values are told with the nearest right ones") {
  const Question question = toy::question();
  CHECK_THROWS_WITH(changed(question, {set("rate.deep.completoin", 0.5)}),
                    Catch::Contains("rate.deep.completion"));
  CHECK_THROWS_WITH(changed(question, {set("rate.deep.completion", 1.5)}),
                    Catch::Contains("it takes 0.0001 to 0.9999"));
  CHECK_THROWS_WITH(changed(question, {{"policy", Change::Way::word, 0, "bold"}}),
                    Catch::Contains("use table or best"));
  CHECK_THROWS_WITH(changed(question, {{"call.rest.deep", Change::Way::word, 0, "more"}}),
                    Catch::Contains("takes a number"));
}

TEST_CASE("sweeps meet the what-if at its point") {
  const Question question = toy::question();
  const Sweep curve = sweep(question, {"rate.deep.completion", 0.3, 0.5, 3}, toy::draws);
  REQUIRE(curve.points.size() == 3);
  const WhatIf single = what_if(question, {set("rate.deep.completion", 0.5)}, toy::draws);
  CHECK(curve.points[2].net_change.value == Approx(single.net_per_game.change.value));
  CHECK(curve.points[0].net.value < curve.points[1].net.value);
  const SweepGrid grid = sweep_grid(question, {"rate.deep.completion", 0.3, 0.5, 2},
                                    {"call.rest.deep", 0.1, 0.3, 2}, toy::draws);
  REQUIRE(grid.cell.size() == 2);
  const WhatIf both =
      what_if(question, {set("rate.deep.completion", 0.5), set("call.rest.deep", 0.3)}, toy::draws);
  CHECK(grid.cell[1][1].value == Approx(both.net_per_game.change.value));
  CHECK_THROWS_AS(sweep(question, {"policy", 0, 1, 2}, toy::draws), InputError);
}

TEST_CASE("a break-even put in again leaves no difference") {
  const Question first = toy::question();
  const Question second = changed(first, {set("rate.quick.completion", 0.72)});
  const BreakEven result = break_even(first, second, "rate.deep.completion", false, toy::draws);
  REQUIRE(result.value);
  CHECK(*result.value > result.now);
  CHECK(result.more_helps);
  const Question met = changed(first, {set("rate.deep.completion", *result.value)});
  const double gap = drive_points(matchup_of(met), met.mean_player()).net_points -
                     drive_points(matchup_of(second), second.mean_player()).net_points;
  CHECK(std::abs(gap) < 1e-9);
  REQUIRE(result.chance);
  CHECK(*result.chance > 0);
  CHECK(*result.chance < 0.5);
}

TEST_CASE("no break-even is told as none") {
  const Question first = toy::question();
  const Question second =
      changed(first, {set("rate.quick.completion", 0.95), set("rate.quick.sack", 0.001)});
  const BreakEven result = break_even(first, second, "rate.draw.fumble", false, toy::draws);
  CHECK_FALSE(result.value);
  CHECK(result.net_at_low < 0);
}

TEST_CASE("a package of nothing changes nothing to the last bit") {
  const Question question = toy::question();
  Package package{"", 8, "draw", Shell::two_high, 0, 0};
  const PackageResult result = add_package(question, package, toy::draws);
  CHECK(result.effect.net_per_game.change.value == 0);
  CHECK(result.effect.net_per_game.change.interval90.low == 0);
  CHECK(result.effect.net_per_game.change.interval90.high == 0);
  CHECK(result.after.quarterback_runs == result.before.quarterback_runs);
  CHECK(result.after.red_zone_touchdowns == result.before.red_zone_touchdowns);
}

TEST_CASE("a package adds its calls, costs contact, and fades") {
  const Question question = toy::question();
  Package package{"", 8, "draw", Shell::two_high, 0.3, 0};
  const Scheme scheme = with_package(question.scheme, package, 0.3);
  REQUIRE(scheme.situations.size() == 5);  // "goal" lies inside, the others are split
  CHECK(scheme.situations[1].id == "third_inside_8");
  CHECK(sum(*scheme.situations[1].share_by_shell[1]) == Approx(1).epsilon(1e-12));
  const PackageResult plain = add_package(question, package, toy::draws);
  CHECK(plain.after.quarterback_runs > plain.before.quarterback_runs);
  package.fade = 1;
  const PackageResult faded = add_package(question, package, toy::draws);
  CHECK(faded.surprising == Approx(0.3 * 0.7));
  CHECK(faded.after.quarterback_runs == plain.after.quarterback_runs);
  CHECK(std::abs(faded.effect.net_per_game.change.value) <
        std::abs(plain.effect.net_per_game.change.value));
  package.family = "drow";
  CHECK_THROWS_WITH(add_package(question, package, toy::draws), Catch::Contains("draw"));
}

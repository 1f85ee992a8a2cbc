// What can be turned, and what follows, on the drive tests' invented setting.
#include "toy.hpp"

#include <ask/answers.hpp>
#include <ask/mix.hpp>
#include <ask/slopes.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/stats/beta.hpp>
#include <callfit/stats/logit.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>

using namespace callfit;
using namespace callfit::ask;
using toy::net_of;
using toy::set;

namespace {

double sum(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

TryResult tried(Memory& memory, const std::vector<Change>& from,
                const std::vector<Change>& changes) {
  return answer(memory, TryRequest{{0, 0, from}, {{"try", changes}}}, {}).tries.front();
}

}  // namespace

TEST_CASE("every knob reads back what it was set to") {
  Memory memory(toy::about(), 1);
  const Question question = toy::question(memory);
  const Knobs knobs = knobs_of(question);
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

TEST_CASE("a knob leaves what it does not make stale as it is") {
  Memory memory(toy::about(), 1);
  const Question question = toy::question(memory);
  const double net = net_of(question);
  for (const Knob& knob : knobs_of(question)) {
    const bool drives = knob.stale.calls || knob.stale.plan || knob.stale.quarterback;
    if (knob.unit == KnobUnit::word || knob.stale.tape || drives) continue;
    INFO(knob.path);
    CHECK(net_of(with_knob(question, knob, knob.low + (knob.high - knob.low) / 3)) == net);
  }
}

TEST_CASE("a mix still sums to one, and what moved along is told") {
  Memory memory(toy::about(), 1);
  const Standing& before = memory.standing({});
  const std::vector<Change> changes{set("call.rest.deep", 0.3)};
  const Question after = turned(before.question, memory.knobs(before), changes).question;
  CHECK(sum(after.scheme.situations[2].share) == Approx(1).epsilon(1e-12));
  CHECK(after.scheme.situations[2].share[0] / after.scheme.situations[2].share[1] ==
        Approx(0.35 / 0.45));
  const auto moved = moved_knobs(memory.knobs(before), before.question, after, changes);
  CHECK(moved.size() == 4);
  for (const Moved& entry : moved) CHECK(entry.asked == (entry.path == "call.rest.deep"));
}

TEST_CASE("draws keep their log-odds distance to the moved mean, shells balanced") {
  Memory memory(toy::about(), 1);
  const Standing& was = memory.standing({});
  const Standing& is = memory.standing({0, 0, {set("rate.deep.completion", 0.5)}});
  const std::size_t deep = 1;
  const double mean = was.mean->families[deep].rate[static_cast<std::size_t>(Rate::completion)];
  const DrawColumn before = was.sample->rate(deep, Rate::completion);
  const DrawColumn after = is.sample->rate(deep, Rate::completion);
  for (std::size_t i = 0; i < 5; ++i) {
    CHECK(logit(after[i]) - logit(before[i]) == Approx(logit(0.5) - logit(mean)));
    const Player whole = is.sample->player_at(i);
    const double shell = is.sample->cell(deep, Cell::two_high, Rate::completion)[i];
    CHECK(whole.families[deep].at(Rate::completion, Cell::two_high) == Approx(shell));
  }
}

// The direction and that it is sure, from the setting's 10% to its 90% point of the rate.
TEST_CASE("deep completion from a weak to a strong quarterback's raises points, with an interval") {
  Memory memory(toy::about(), 1);
  const RatePopulation& deep =
      *memory.about().setting.find_family("deep")->rates[static_cast<std::size_t>(
          Rate::completion)];
  const Beta population = Beta::of_moments(deep.mean, deep.spread * deep.spread);
  const TryResult result = tried(memory, {set("rate.deep.completion", quantile(population, 0.1))},
                                 {set("rate.deep.completion", quantile(population, 0.9))});
  const Number& change = result.drives->points_per_drive.change;
  CHECK(change.centre > 0);
  CHECK(change.low > 0);
  CHECK(change.low < change.high);
  CHECK(result.drives->better.odds == 1);
}

TEST_CASE("wrong paths and values are told with the nearest right ones") {
  Memory memory(toy::about(), 1);
  const auto trying = [&memory](const Change& change) {
    return [&memory, change] { memory.standing({0, 0, {change}}); };
  };
  CHECK_THROWS_WITH(trying(set("rate.deep.completoin", 0.5))(),
                    Catch::Contains("rate.deep.completion"));
  CHECK_THROWS_WITH(trying(set("rate.deep.completion", 1.5))(),
                    Catch::Contains("it takes 0.0001 to 0.9999"));
  CHECK_THROWS_WITH(trying({"policy", Change::Way::word, 0, "bold"})(),
                    Catch::Contains("use table or best"));
  CHECK_THROWS_WITH(trying({"call.rest.deep", Change::Way::word, 0, "more"})(),
                    Catch::Contains("takes a number"));
}

TEST_CASE("a path is found by parts of its words, and several that fit are named") {
  Memory memory(toy::about(), 1);
  const Knobs& knobs = memory.knobs(memory.standing({}));
  CHECK(find_knob(knobs, "deep completion").path == "rate.deep.completion");
  CHECK(find_knob(knobs, "Deep, compl").path == "rate.deep.completion");
  CHECK_THROWS_WITH(find_knob(knobs, "completion"), Catch::Contains("fits"));
}

TEST_CASE("sweeps meet the try at its point") {
  Memory memory(toy::about(), 1);
  const SweepAnswer curve =
      answer(memory, SweepRequest{{}, {{"rate.deep.completion", 0.3, 0.5, 3}}}, {});
  REQUIRE(curve.cells.size() == 3);
  const TryResult single = tried(memory, {}, {set("rate.deep.completion", 0.5)});
  CHECK(curve.cells[2][0].net_points_per_game_change.centre ==
        single.drives->net_points_per_game.change.centre);
  CHECK(curve.cells[0][0].net_points_per_drive.centre <
        curve.cells[1][0].net_points_per_drive.centre);
  const SweepAnswer grid = answer(
      memory,
      SweepRequest{{}, {{"rate.deep.completion", 0.3, 0.5, 2}, {"call.rest.deep", 0.1, 0.3, 2}}},
      {});
  REQUIRE(grid.cells.size() == 2);
  const TryResult both =
      tried(memory, {}, {set("rate.deep.completion", 0.5), set("call.rest.deep", 0.3)});
  CHECK(grid.cells[1][1].net_points_per_game_change.centre ==
        both.drives->net_points_per_game.change.centre);
  CHECK_THROWS_AS(answer(memory, SweepRequest{{}, {{"policy", 0, 1, 2}}}, {}), InputError);
}

TEST_CASE("an even point put in again leaves no difference") {
  Memory memory(toy::about(), 1);
  const Stand second{1, 0, {set("rate.quick.completion", 0.72)}};
  const BreakEvenAnswer result =
      answer(memory, BreakEvenRequest{{}, second, "rate.deep.completion", false}, {});
  REQUIRE(result.value);
  CHECK(*result.value > result.now);
  CHECK(result.more_helps);
  const Question met = toy::question(memory, {set("rate.deep.completion", *result.value)});
  CHECK(std::abs(net_of(met) - net_of(memory.standing(second).question)) < 1e-8);
  REQUIRE(result.ahead_of_it);
  CHECK(result.ahead_of_it->odds > 0);
  CHECK(result.ahead_of_it->odds < 0.5);
}

TEST_CASE("no even point is told as none", "[plain]") {
  Memory memory(toy::about(), 1);
  const Stand second{1, 0, {set("rate.quick.completion", 0.95), set("rate.quick.sack", 0.001)}};
  const BreakEvenAnswer result =
      answer(memory, BreakEvenRequest{{}, second, "rate.draw.fumble", false}, {});
  CHECK_FALSE(result.value);
  CHECK(result.net_at_low < 0);
}

TEST_CASE("a package of nothing changes no drive") {
  Memory memory(toy::about(), 1);
  const PackageAnswer result =
      answer(memory, PackageRequest{{}, {"", 8, "draw", Shell::two_high, 0, 0}}, {});
  CHECK(std::abs(result.effect.drives->net_points_per_game.change.high) < 1e-3);
  CHECK(std::abs(result.effect.drives->net_points_per_game.change.low) < 1e-3);
  CHECK(result.after.quarterback_runs == Approx(result.before.quarterback_runs));
  CHECK(result.after.red_zone_touchdowns == Approx(result.before.red_zone_touchdowns));
}

TEST_CASE("a package adds its calls, costs contact, and fades") {
  Memory memory(toy::about(), 1);
  Package package{"", 8, "draw", Shell::two_high, 0.3, 0};
  const Scheme scheme = with_package(memory.about().schemes[0], package, 0.3);
  REQUIRE(scheme.situations.size() == 5);  // "goal" lies inside, the others are split
  CHECK(scheme.situations[1].id == "third_inside_8");
  CHECK(sum(*scheme.situations[1].share_by_shell[1]) == Approx(1).epsilon(1e-12));
  const PackageAnswer plain = answer(memory, PackageRequest{{}, package}, {});
  CHECK(plain.after.quarterback_runs > plain.before.quarterback_runs);
  package.fade = 1;
  const PackageAnswer faded = answer(memory, PackageRequest{{}, package}, {});
  CHECK(faded.surprising == Approx(0.3 * 0.7));
  CHECK(faded.after.quarterback_runs == Approx(plain.after.quarterback_runs));
  CHECK_THROWS_AS(answer(memory, PackageRequest{{}, {"", 8, "draw", {}, 1.4, 0}}, {}), InputError);
}

TEST_CASE("levers are the slopes of their knobs") {
  Memory memory(toy::about(), 1);
  const LeversAnswer answered = answer(memory, LeversRequest{}, {});
  const Standing& standing = memory.standing({});
  const Knobs& knobs = memory.knobs(standing);
  REQUIRE(answered.levers.size() > 40);
  std::size_t checked = 0;
  for (const LeverAnswer& lever : answered.levers) {
    const Knob& knob = find_knob(knobs, lever.path);
    const double now = knob.get(standing.question);
    if (now <= 0.001 && knob.unit == KnobUnit::share) continue;  // one-sided there
    if (checked++ % 5 != 0 || lever.step == 0) continue;         // a fifth is enough for the time
    INFO(lever.path);
    const double step = 1e-3 * std::min(std::abs(now), 1.0);
    const double slope = (net_of(with_knob(standing.question, knob, now + step)) -
                          net_of(with_knob(standing.question, knob, now - step))) /
                         (2 * step);
    const double told = slope * lever.step * standing.drives_per_game();
    // The slope at the means lies within what the draws' slopes are said to span.
    const Number& number = lever.net_points_per_game;
    CHECK(told >= number.low - 0.02 * std::abs(told));
    CHECK(told <= number.high + 0.02 * std::abs(told));
    CHECK(told >= -1e-9);
  }
}

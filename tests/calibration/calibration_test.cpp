#include "calibration.hpp"

#include "../support/example_setting.hpp"
#include "../support/repeats.hpp"
#include "joint.hpp"

#include <callfit/files/files.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace callfit;
using namespace callfit::testing;

namespace {

constexpr std::size_t players = repeats(4000);

// 4.2 standard errors each way, 88 to 92% with 4,000 players, so that a true model fails one of the
// 120 checks here once in 300 seeds.
bool covers(double share) {
  return std::abs(share - 0.9) <= 4.2 * std::sqrt(0.9 * 0.1 / static_cast<double>(players));
}

// Level of one histogram's chi-square test so that all `tests` together reject a true model once in
// a thousand seeds (Sidak).
double level(std::size_t tests) {
  return 1 - std::pow(1 - 0.001, 1.0 / static_cast<double>(tests));
}

Experiment experiment(int snaps, ChartPlan plan = {}) {
  plan.snaps = snaps;
  return {plan, players, 20};
}

void expect_calibrated(const std::vector<callfit::testing::Coverage>& coverage) {
  for (const callfit::testing::Coverage& one : coverage) {
    INFO(one.quantity.name << ": interval " << one.interval_share() << ", draws " << one.share()
                           << ", p " << one.p_value());
    CHECK(covers(one.share()));
    CHECK(one.p_value() > level(coverage.size()));
    if (!one.quantity.gain) CHECK(covers(one.interval_share()));
  }
}

}  // namespace

TEST_CASE("rates, cells and gains are calibrated at 15 snaps with shells charted", "[slow]") {
  const Setting setting = example_setting();
  expect_calibrated(calibrate(experiment(15), setting, setting));
}

TEST_CASE("rates are calibrated at 50 snaps from two levels", "[slow]") {
  const Setting setting = example_setting();
  ChartPlan plan;
  plan.levels = {"pro", "college"};
  expect_calibrated(calibrate(experiment(50, plan), setting, setting));
}

TEST_CASE("cells are calibrated when snaps differ by platform", "[slow]") {
  const Setting setting = example_setting();
  ChartPlan plan;
  plan.by_platform = true;
  expect_calibrated(calibrate(experiment(30, plan), setting, setting));
}

// Correlated truths, three opponents, two levels: the professional setting's own population.
TEST_CASE("a real population is calibrated over levels and opponents", "[slow]") {
  const Setting setting = Files().setting(CALLFIT_SOURCE_DIR "/settings/pro.json");
  const SeasonPlan plan{"", {"pro", "college"}, true, 3};
  const std::size_t few = repeats(600);
  // Four and a half standard errors: once in 10,000 seeds.
  const double margin = 4.5 * std::sqrt(0.09 / static_cast<double>(few));
  for (const callfit::testing::Coverage& one :
       calibrate_joint(plan, 4, few, 20, setting, setting)) {
    INFO(one.quantity.name << ": interval " << one.interval_share() << ", draws " << one.share());
    CHECK(one.share() == Approx(.9).margin(margin));
    if (!one.quantity.gain) CHECK(one.interval_share() == Approx(.9).margin(margin));
  }
  Setting believed = setting;
  for (Trait& trait : believed.population->traits) trait.spread *= 0.6;
  std::size_t noticed = 0;
  for (const callfit::testing::Coverage& one : calibrate_joint(plan, 4, few, 20, setting, believed))
    if (one.share() < .9 - margin) ++noticed;
  CHECK(noticed >= 4);
}

// The twin: whoever takes the quarterbacks for a third more alike than they are is found out. It
// needs all the players, so sanitizers do not run it.
TEST_CASE("a wrong population is noticed", "[slow-plain]") {
  const Setting truth = example_setting();
  Setting believed = truth;
  for (FamilyPopulation& family : believed.families)
    for (auto& rate : family.rates)
      if (rate) rate->spread *= 0.67;
  std::size_t noticed = 0;
  for (const callfit::testing::Coverage& one : calibrate(experiment(15), truth, believed))
    if (!one.quantity.gain && !covers(one.interval_share())) ++noticed;
  CHECK(noticed >= 9);
}

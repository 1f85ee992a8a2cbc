#include "../support/example_setting.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/fit/fit.hpp>
#include <callfit/profile/draws.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace callfit;
using namespace callfit::testing;

namespace {

Family family(const char* id, FamilyKind kind, const char* like = "") {
  Family out;
  out.id = id;
  out.kind = kind;
  out.like = like;
  return out;
}

Scheme example_scheme() {
  Scheme scheme;
  scheme.id = "scheme.json";
  scheme.families = {family("throw", FamilyKind::pass), family("draw", FamilyKind::qb_run, "keep"),
                     family("give", FamilyKind::handoff)};
  scheme.situations = {{"short", "", {}, {0.2, 0.3, 0.5}, {}, 0},
                       {"any", "", {}, {0.7, 0.1, 0.2}, {}, 0}};
  scheme.demands = {{0, Measure::completion, {}, 0.66, 2, true},
                    {0, Measure::sack, {}, 0.06, 1, false},
                    {0, Measure::completion, Cell::moving, 0.5, 1, true},
                    {1, Measure::run_gain, {}, 5.0, 1, true}};
  return scheme;
}

BoundScheme bind(const Scheme& scheme, const Setting& setting) {
  BoundScheme bound = bind_scheme(scheme, setting);
  bound.call_share = {0.575, 0.15, 0.275};
  return bound;
}

double total(const FitResult& fit) {
  double sum = 0;
  for (const DemandResult& demand : fit.demands) sum += demand.contribution;
  return sum;
}

}  // namespace

TEST_CASE("a scheme finds its families and spreads in the setting") {
  const Setting setting = example_setting();
  const BoundScheme bound = bind_scheme(example_scheme(), setting);
  CHECK(bound.setting_family == std::vector<std::size_t>{0, 1, 2});
  CHECK(bound.call_share == std::vector<double>(3, 1.0 / 3));
  CHECK(bound.spread[0] == 0.05);
  CHECK(bound.spread[2] == spread_of(setting, 0, Measure::completion, Cell::moving));
}

TEST_CASE("what a setting cannot answer is named, all in one go") {
  const Setting setting = example_setting();
  Scheme scheme = example_scheme();
  scheme.families[1].like = "kep";
  scheme.demands.push_back({2, Measure::completion, {}, 0.5, 1, true});
  scheme.correlations.push_back({0, {{1, 2, 0}, {2, 1, 0}, {0, 0, 1}}});
  try {
    bind(scheme, setting);
    FAIL("no error");
  } catch (const InputError& error) {
    REQUIRE(error.findings().size() == 3);
    CHECK_THAT(error.what(), Catch::Contains("/families/1") && Catch::Contains("keep?"));
    CHECK_THAT(error.what(), Catch::Contains("/demands/4") && Catch::Contains("no completion"));
    CHECK_THAT(error.what(), Catch::Contains("/correlations/0") && Catch::Contains("3 demands"));
  }
}

// By hand: the average player completes .62 of .66 asked at spread .05 (short by .8), takes sacks
// on .07 where .06 is asked at spread .02 (short by .5).
TEST_CASE("shortfalls, weights and distance follow the formula") {
  const Setting setting = example_setting(false);
  Scheme scheme = example_scheme();
  scheme.demands.resize(2);
  const BoundScheme bound = bind(scheme, setting);
  const FitResult fit = fit_of(average_player(setting), bound, setting);
  CHECK(fit.demands[0].shortfall == Approx(0.8));
  CHECK(fit.demands[1].shortfall == Approx(0.5));
  const double share = bound.call_share[0];
  const double expected = (2 * share * 0.64 + share * 0.25) / (3 * share);
  CHECK(fit.distance_squared == Approx(expected));
  CHECK(total(fit) == fit.distance_squared);
}

TEST_CASE("the breakdown adds up and better rates never fit worse") {
  const Setting setting = example_setting();
  Scheme scheme = example_scheme();
  for (bool correlated : {false, true}) {
    if (correlated) scheme.correlations.push_back({0, {{1, -0.3, 0.6}, {-0.3, 1, 0}, {0.6, 0, 1}}});
    const BoundScheme bound = bind(scheme, setting);
    const auto members = PlayerDraws::of_population(setting, {3}, 50);
    for (std::size_t i = 0; i < members.size(); ++i) {
      Player player = members.player_at(i);
      const FitResult fit = fit_of(player, bound, setting);
      CHECK(total(fit) == fit.distance_squared);
      CHECK(fit.distance_squared >= 0);
      auto& completion = player.families[0].rate[static_cast<std::size_t>(Rate::completion)];
      completion += 0.05;
      CHECK(fit_of(player, bound, setting).distance_squared <= fit.distance_squared + 1e-9);
      player.families[0].rate[static_cast<std::size_t>(Rate::sack)] /= 2;
      CHECK(fit_of(player, bound, setting).distance_squared <= fit.distance_squared + 1e-9);
    }
  }
}

TEST_CASE("meeting every demand is no distance, surplus is told and not rewarded") {
  const Setting setting = example_setting(false);
  Scheme scheme = example_scheme();
  scheme.demands = {{0, Measure::completion, {}, 0.6, 1, true}};
  const BoundScheme bound = bind(scheme, setting);
  const FitResult fit = fit_of(average_player(setting), bound, setting);
  CHECK(fit.distance_squared == 0);
  CHECK(fit.demands[0].shortfall == 0);
  CHECK(fit.demands[0].surplus == Approx(0.4));
}

TEST_CASE("the scale of weights does not matter") {
  const Setting setting = example_setting();
  const Player player = PlayerDraws::of_population(setting, {4}, 1).player_at(0);
  Scheme scheme = example_scheme();
  const double plain = fit_of(player, bind(scheme, setting), setting).distance_squared;
  for (Demand& demand : scheme.demands) demand.weight *= 7;
  CHECK(fit_of(player, bind(scheme, setting), setting).distance_squared == Approx(plain));
  std::swap(scheme.demands[0], scheme.demands[3]);
  CHECK(fit_of(player, bind(scheme, setting), setting).distance_squared == Approx(plain));
}

TEST_CASE("nothing demanded of what is called is no distance") {
  const Setting setting = example_setting();
  Scheme scheme = example_scheme();
  scheme.demands.clear();
  CHECK(fit_of(average_player(setting), bind(scheme, setting), setting).distance_squared == 0);
}

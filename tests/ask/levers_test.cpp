// Slopes of knobs against central differences through the knobs themselves.
#include "toy.hpp"

#include <callfit/ask/levers.hpp>
#include <callfit/ask/point_weights.hpp>

#include <catch2/catch.hpp>

using namespace callfit;

namespace {

double net_at(const Question& question, const Knob& knob, double value) {
  const Question turned = with_knob(question, knob, value);
  return drive_points(matchup_of(turned), turned.mean_player()).net_points;
}

double fit_at(const Question& question, const Knob& knob, double value) {
  const Question turned = with_knob(question, knob, value);
  return fit_of(turned.mean_player(), turned.ground->bound, turned.ground->setting).fit;
}

Question demanding() {
  Setting setting = fixture::setting();
  setting.drives_per_game = 11;
  Scheme scheme = fixture::scheme();
  scheme.demands = {{0, Measure::completion, std::nullopt, 0.75, 1, true},
                    {0, Measure::sack, std::nullopt, 0.04, 1, false},
                    {2, Measure::completion, Cell::two_high, 0.5, 2, true}};
  scheme.correlations = {{0, {{1, 0.3}, {0.3, 1}}}};
  auto ground = std::make_shared<const Matchup>(make_matchup(setting, scheme, scheme));
  return make_question(ground, build_profile("Somebody", {}, setting, weighting_of(setting)));
}

}  // namespace

TEST_CASE("levers are the slopes of their knobs") {
  const Question question = demanding();
  const auto levers = levers_of(question, {1, 3, 1});
  const auto knobs = knobs_of(question);
  REQUIRE(levers.size() > 40);
  std::size_t checked = 0;
  for (const LeverValue& lever : levers) {
    const Knob& knob = find_knob(knobs, lever.path);
    const double now = knob.get(question);
    if (now <= 0.001 && knob.unit == KnobUnit::share) continue;  // one-sided there
    if (checked++ % 3 != 0 && lever.fit_slope == 0) continue;    // a third is enough for the time
    INFO(lever.path);
    const double step = 1e-3 * std::min(std::abs(now), 1.0);
    const double slope =
        (net_at(question, knob, now + step) - net_at(question, knob, now - step)) / (2 * step);
    // Second order of the step: 1e-6 of the curvature.
    CHECK(lever.net_slope == Approx(slope).epsilon(1e-4).margin(1e-6));
    const double fit =
        (fit_at(question, knob, now + step) - fit_at(question, knob, now - step)) / (2 * step);
    if (!lever.is_call) CHECK(lever.fit_slope == Approx(fit).epsilon(1e-3).margin(1e-4));
    CHECK(lever.net_per_game.value >= 0);
  }
}

TEST_CASE("weights out of points rank demands by what they score") {
  const Question question = demanding();
  const Matchup& matchup = *question.ground;
  const BoundScheme bound = weighed_by_points(matchup);
  const std::vector<double> slopes = points_per_spread(matchup);
  for (std::size_t d = 0; d < slopes.size(); ++d) {
    CHECK(slopes[d] > 0);
    const Demand& demand = bound.scheme.demands[d];
    CHECK(demand.weight * bound.call_share[demand.family] == Approx(slopes[d]));
  }
  const WeightAgreement agreement = weight_agreement(matchup, bound, 30, 5, 1);
  CHECK(agreement.between_fits > 0.5);
  CHECK(agreement.between_fits <= 1);
  CHECK(weight_agreement(matchup, matchup.bound, 30, 5, 1).between_fits == Approx(1));
}

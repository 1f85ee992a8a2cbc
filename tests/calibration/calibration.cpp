#include "calibration.hpp"

#include "../support/example_setting.hpp"

#include <callfit/base/parallel.hpp>
#include <callfit/profile/draws.hpp>

#include <boost/math/distributions/chi_squared.hpp>

#include <cmath>
#include <utility>

namespace callfit::testing {
namespace {

const GainPopulation& population_of(const Setting& setting, const Quantity& quantity) {
  const FamilyPopulation& family = setting.families[quantity.family];
  switch (*quantity.gain) {
    case GainPart::depth:
      return *family.depth;
    case GainPart::yac:
      return *family.yac;
    case GainPart::run:
      return *family.run;
    case GainPart::scramble:
      return setting.scramble_gain;
    default:
      return setting.sack_gain;
  }
}

const std::vector<double>& bins_of(const Player& player, const Quantity& quantity) {
  const PlayerFamily& family = player.families[quantity.family];
  switch (*quantity.gain) {
    case GainPart::depth:
      return family.depth_bins;
    case GainPart::yac:
      return family.yac_bins;
    case GainPart::run:
      return family.run_bins;
    case GainPart::scramble:
      return player.scramble_bins;
    default:
      return player.sack_bins;
  }
}

double value_of(const Player& player, const Setting& setting, const Quantity& quantity) {
  if (quantity.gain)
    return mean(gain_pmf(population_of(setting, quantity), bins_of(player, quantity)));
  const PlayerFamily& family = player.families[quantity.family];
  return quantity.cell ? family.at(*quantity.rate, *quantity.cell) : family.at(*quantity.rate);
}

std::optional<Interval> interval_of(const Profile& profile, const Quantity& quantity) {
  if (quantity.gain) return std::nullopt;
  const FamilyProfile& family = profile.families[quantity.family];
  if (!quantity.cell) return family.rates[static_cast<std::size_t>(*quantity.rate)]->interval90();
  for (const CellEstimate& cell : family.cells)
    if (cell.cell == *quantity.cell && cell.rate == *quantity.rate) return cell.interval;
  return std::nullopt;
}

std::vector<Outcome> one_player(const Experiment& experiment, const Setting& truth,
                                const Setting& believed, const std::vector<Quantity>& quantities,
                                std::size_t index) {
  const DrawKey key{experiment.seed, index};
  const Player player = PlayerDraws::of_population(truth, key, 1).player_at(0);
  Stream stream(experiment.seed, Purpose::chart_draw, index);
  const Chart chart = chart_of(player, truth, experiment.plan, stream);
  const Profile profile = build_profile("drawn", {chart}, believed, weighting_of(believed));
  return outcomes_of(quantities, player, truth, profile, believed, key);
}

Quantity rate_quantity(std::size_t family, Rate rate, std::optional<Cell> cell = {}) {
  Quantity quantity;
  quantity.name = std::string(word(rate)) + (family == run_family ? ", run" : "") +
                  (cell ? ", " + std::string(word(*cell)) : "");
  quantity.family = family;
  quantity.rate = rate;
  quantity.cell = cell;
  return quantity;
}

Quantity gain_quantity(std::size_t family, GainPart part) {
  Quantity quantity;
  quantity.name = std::string(word(part)) + " yards, mean";
  quantity.family = family;
  quantity.gain = part;
  return quantity;
}

}  // namespace

std::vector<Quantity> quantities_of(const ChartPlan& plan) {
  if (plan.yards != Yards::gains) {
    const Rate rate = plan.yards == Yards::success ? Rate::success : Rate::explosive;
    return {rate_quantity(pass_family, rate), rate_quantity(run_family, rate)};
  }
  std::vector<Quantity> out;
  for (const Rate rate :
       {Rate::sack, Rate::scramble, Rate::completion, Rate::interception, Rate::on_time,
        Rate::catchable, Rate::pressured, Rate::fumble, Rate::evaded})
    out.push_back(rate_quantity(pass_family, rate));
  if (plan.by_platform)
    for (const Rate rate : {Rate::completion, Rate::sack})
      out.push_back(rate_quantity(pass_family, rate, Cell::moving));
  else
    for (const Cell cell : {Cell::one_high, Cell::two_high, Cell::none_high})
      for (const Rate rate : {Rate::completion, Rate::sack})
        out.push_back(rate_quantity(pass_family, rate, cell));
  for (const GainPart part : {GainPart::depth, GainPart::yac, GainPart::scramble, GainPart::sack})
    out.push_back(gain_quantity(pass_family, part));
  out.push_back(gain_quantity(run_family, GainPart::run));
  return out;
}

std::vector<Outcome> outcomes_of(const std::vector<Quantity>& quantities, const Player& player,
                                 const Setting& truth, const Profile& profile,
                                 const Setting& believed, const DrawKey& key) {
  std::vector<Outcome> outcomes(quantities.size());
  std::vector<double> values;
  for (std::size_t q = 0; q < quantities.size(); ++q) {
    values.push_back(value_of(player, truth, quantities[q]));
    const auto interval = interval_of(profile, quantities[q]);
    outcomes[q].in_interval = interval && interval->low <= values[q] && values[q] <= interval->high;
  }
  const auto draws = PlayerDraws::of_profile(profile, believed, key, ranked_draws);
  for (std::size_t d = 0; d < ranked_draws; ++d) {
    const Player draw = draws.player_at(d);
    for (std::size_t q = 0; q < quantities.size(); ++q)
      outcomes[q].rank += value_of(draw, believed, quantities[q]) < values[q] ? 1U : 0U;
  }
  return outcomes;
}

double Coverage::chi_square() const {
  const double expected = static_cast<double>(players) / histogram_bins;
  double sum = 0;
  for (const std::size_t count : histogram)
    sum += std::pow(static_cast<double>(count) - expected, 2) / expected;
  return sum;
}

double Coverage::p_value() const {
  const boost::math::chi_squared distribution(histogram_bins - 1);
  return boost::math::cdf(boost::math::complement(distribution, chi_square()));
}

std::vector<Coverage> calibrate(const Experiment& experiment, const Setting& truth,
                                const Setting& believed) {
  const std::vector<Quantity> quantities = quantities_of(experiment.plan);
  std::vector<std::vector<Outcome>> outcomes(experiment.players);
  for_each_unit(experiment.players, 0, [&](std::size_t i) {
    outcomes[i] = one_player(experiment, truth, believed, quantities, i);
  });
  return coverage_of(quantities, outcomes);
}

std::vector<Coverage> coverage_of(const std::vector<Quantity>& quantities,
                                  const std::vector<std::vector<Outcome>>& outcomes) {
  std::vector<Coverage> coverage;
  for (std::size_t q = 0; q < quantities.size(); ++q) {
    Coverage one;
    one.quantity = quantities[q];
    one.players = outcomes.size();
    for (const auto& player : outcomes) {
      const std::size_t rank = player[q].rank;
      one.in_draws90 += rank >= 2 && rank <= ranked_draws - 2 ? 1U : 0U;
      one.in_interval90 += player[q].in_interval ? 1U : 0U;
      ++one.histogram[rank * histogram_bins / (ranked_draws + 1)];
    }
    coverage.push_back(one);
  }
  return coverage;
}

}  // namespace callfit::testing

#include "chain.hpp"
#include "league.hpp"

#include <callfit/population/posterior.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <string>
#include <vector>

using namespace callfit;
using namespace callfit::testing;

namespace {

constexpr double score95 = 1.6448536269514722;

/// The largest departures from a chain over all quantities, in the chain's standard deviations.
struct Departure {
  double mean = 0, sd = 0, ends = 0, chain_error = 0;
  double correlation = 0;  ///< with the first quantity
};

bool of_one_trait(const Population& population, std::size_t a, std::size_t b) {
  return population.quantities[a].trait == population.quantities[b].trait;
}

double correlation(const Population& population, const Posterior& posterior, std::size_t a,
                   std::size_t b) {
  const auto product = [](const std::vector<double>& x, const std::vector<double>& y) {
    return std::inner_product(x.begin(),
                              x.begin() + static_cast<std::ptrdiff_t>(std::min(x.size(), y.size())),
                              y.begin(), 0.0);
  };
  const Score& x = posterior.scores[a];
  const Score& y = posterior.scores[b];
  return product(x.shared, y.shared) +
         (of_one_trait(population, a, b) ? product(x.own, y.own) : 0.0);
}

Departure departure(const Population& population, const Posterior& posterior,
                    const std::vector<Sampled>& chain) {
  Departure worst;
  for (std::size_t q = 0; q < chain.size(); ++q) {
    const Marginal& marginal = posterior.marginals[q];
    const Sampled& truth = chain[q];
    const auto off = [&](double a, double b) { return std::abs(a - b) / truth.sd; };
    worst.mean = std::max(worst.mean, off(marginal.mean, truth.mean));
    worst.sd = std::max(worst.sd, off(marginal.sd, truth.sd));
    worst.ends = std::max(
        {worst.ends, off(marginal.at(-score95), truth.low), off(marginal.at(score95), truth.high)});
    worst.correlation = std::max(
        worst.correlation, std::abs(correlation(population, posterior, 0, q) - truth.with_first));
    worst.chain_error = std::max(worst.chain_error, truth.error / truth.sd);
  }
  return worst;
}

// The accuracy that the model promises: means within .05 standard deviations, standard deviations
// within 5%, ends of 90% intervals within .1. The chains are long enough to tell.
constexpr double chain_error = 0.02;
constexpr double mean_bound = 0.05, sd_bound = 0.05, ends_bound = 0.1, correlation_bound = 0.05;

void check(const Population& population, const Evidence& evidence, std::size_t steps) {
  const Departure worst = departure(population, posterior_of(population, evidence),
                                    sample(population, evidence, steps));
  CHECK(worst.chain_error < chain_error);
  CHECK(worst.mean < mean_bound);
  CHECK(worst.sd < sd_bound);
  CHECK(worst.ends < ends_bound);
  CHECK(worst.correlation < correlation_bound);
}

/// Moments and ends of one normal unknown under made of `of` trials, by the trapezoidal rule.
Sampled quadrature(double spread, double threshold, double made, double of) {
  constexpr int points = 40001;
  std::vector<double> weight(points), at(points);
  double top = -1e300;
  for (int i = 0; i < points; ++i) {
    const auto index = static_cast<std::size_t>(i);
    at[index] = spread * (-10 + 20.0 * i / (points - 1));
    const double x = threshold + at[index];
    weight[index] =
        made * x - of * std::log1p(std::exp(x)) - at[index] * at[index] / (2 * spread * spread);
    top = std::max(top, weight[index]);
  }
  double total = 0;
  for (double& w : weight) total += w = std::exp(w - top);
  Sampled out;
  for (std::size_t i = 0; i < weight.size(); ++i) out.mean += weight[i] / total * at[i];
  double sum = 0;
  for (std::size_t i = 0; i < weight.size(); ++i) {
    out.sd += weight[i] / total * (at[i] - out.mean) * (at[i] - out.mean);
    if (sum < 0.05 * total) out.low = at[i];
    if (sum < 0.95 * total) out.high = at[i];
    sum += weight[i];
  }
  out.sd = std::sqrt(out.sd);
  return out;
}

Evidence twelve_snaps(const Population& population) {
  Evidence evidence;
  count(evidence, population, "quick_middle.completion", 3, 4);
  count(evidence, population, "intermediate.completion", 1, 3);
  count(evidence, population, "intermediate.interception", 1, 3);
  count(evidence, population, "deep_outside.completion", 1, 2);
  count(evidence, population, "quick_middle.sack", 0, 5);
  count(evidence, population, "intermediate.sack", 1, 4);
  count(evidence, population, "boot.scramble", 2, 3);
  evidence.games = 1;
  evidence.opponents.resize(1);
  for (QuantityCounts& tally : evidence.tallies) tally.game = tally.opponent = 0;
  return evidence;
}

Evidence no_interception(const Population& population) {
  Evidence evidence;
  for (const char* family : {"quick_middle", "quick_outside", "intermediate", "deep_outside"})
    count(evidence, population, std::string(family) + ".interception", 0, 50);
  count(evidence, population, "boot.scramble", 0, 60);
  return evidence;
}

Evidence one_family(const Population& population) {
  Evidence evidence;
  count(evidence, population, "quick_outside.completion", 61, 80);
  count(evidence, population, "quick_outside.interception", 3, 80);
  count(evidence, population, "quick_outside.sack", 1, 85);
  count(evidence, population, "quick_outside.scramble", 4, 85);
  return evidence;
}

Evidence mixed_levels(const Population& population) {
  Evidence evidence;
  evidence.sources = {source_after(population, PlaceChange::new_level),
                      source_after(population, PlaceChange::new_team)};
  const auto at = [&](std::size_t from, std::optional<std::size_t> level,
                      std::optional<std::size_t> source) {
    for (std::size_t i = from; i < evidence.tallies.size(); ++i) {
      evidence.tallies[i].level = level;
      evidence.tallies[i].source = source;
    }
    return evidence.tallies.size();
  };
  count(evidence, population, "quick_middle.completion", 230, 300);
  count(evidence, population, "deep_middle.completion", 30, 60);
  count(evidence, population, "quick_middle.scramble", 40, 400);
  std::size_t from = at(0, 1, 0);
  count(evidence, population, "quick_middle.completion", 70, 110);
  count(evidence, population, "intermediate.completion", 25, 60);
  count(evidence, population, "intermediate.sack", 12, 80);
  from = at(from, 0, 1);
  count(evidence, population, "quick_middle.completion", 20, 25);
  count(evidence, population, "intermediate.interception", 2, 15);
  at(from, std::nullopt, std::nullopt);
  return evidence;
}

Evidence three_opponents(const Population& population) {
  Evidence evidence;
  evidence.games = 4;
  evidence.opponents.resize(3);
  evidence.opponents[2].effects.resize(population.traits.size());
  evidence.opponents[2].effects[*population.find_trait("quick")] = OpponentEffect{0.15, 0.04};
  constexpr std::array<std::size_t, 4> opponent{0, 1, 2, 0};
  constexpr std::array<double, 4> completions{22, 12, 25, 19};
  for (std::size_t game = 0; game < 4; ++game) {
    const std::size_t from = evidence.tallies.size();
    count(evidence, population, "quick_outside.completion", completions[game], 28);
    count(evidence, population, "intermediate.completion", 4 + static_cast<double>(game), 12);
    count(evidence, population, "intermediate.sack", static_cast<double>(game), 14);
    for (std::size_t i = from; i < evidence.tallies.size(); ++i) {
      evidence.tallies[i].game = game;
      evidence.tallies[i].opponent = opponent[game];
    }
  }
  return evidence;
}

// What three games and the totals of two seasons tell; the second season is of a lower level.
Evidence season_totals(const Population& population) {
  Evidence evidence;
  count(evidence, population, "quick_middle.completion", 50, 60);
  count(evidence, population, "intermediate.completion", 12, 30);
  count(evidence, population, "intermediate.sack", 6, 40);
  evidence.games = 1;
  evidence.sources = {source_after(population, PlaceChange::new_team)};
  const auto total = [&](const char* rate, double made, double of, double games,
                         std::optional<std::size_t> level, std::optional<std::size_t> source) {
    MixtureCounts mixture{{}, made, of, games, level, source};
    const std::vector<std::pair<const char*, double>> calls{
        {"quick_middle", .25}, {"quick_outside", .25}, {"screen", .1},       {"intermediate", .2},
        {"boot", .1},          {"deep_middle", .05},   {"deep_outside", .05}};
    for (const auto& [family, share] : calls)
      mixture.parts.push_back(
          {*population.find_quantity(std::string(family) + '.' + rate), share, 0});
    evidence.mixtures.push_back(mixture);
  };
  total("completion", 230, 400, 9, {}, {});
  total("interception", 16, 400, 9, {}, {});
  total("sack", 40, 450, 0, {}, {});
  total("completion", 150, 200, 6, 0, 0);
  return evidence;
}

}  // namespace

TEST_CASE("a mixture of one rate without games is that rate's count") {
  const Population population = league();
  const std::size_t completion = *population.find_quantity("quick_middle.completion");
  Evidence counted, mixed;
  count(counted, population, "quick_middle.completion", 30, 60);
  counted.tallies[0].shift = 0.2;
  mixed.mixtures = {{{{completion, 1, 0.2}}, 30, 60}};
  const Posterior a = posterior_of(population, counted);
  const Posterior b = posterior_of(population, mixed);
  for (std::size_t q = 0; q < population.quantities.size(); ++q) {
    CHECK(b.marginals[q].mean == Approx(a.marginals[q].mean).margin(1e-5));
    CHECK(b.marginals[q].sd == Approx(a.marginals[q].sd).epsilon(1e-5));
    CHECK(score_correlation(population, b, completion, q) ==
          Approx(score_correlation(population, a, completion, q)).margin(1e-5));
  }
}

TEST_CASE("totals move every rate that they are a sum of") {
  const Population population = league();
  const Posterior without = posterior_of(population, {});
  Evidence evidence = season_totals(population);
  evidence.tallies.clear();
  const Posterior with = posterior_of(population, evidence);
  for (const char* family : {"quick_middle", "screen", "deep_outside"})
    for (const char* rate : {".completion", ".interception", ".sack"}) {
      const std::size_t q = *population.find_quantity(std::string(family) + rate);
      CHECK(with.marginals[q].sd < without.marginals[q].sd);
    }
}

TEST_CASE("nothing charted: the posterior is the population") {
  const Population population = league();
  const Posterior posterior = posterior_of(population, {});
  for (std::size_t q = 0; q < population.quantities.size(); ++q) {
    const Quantity& quantity = population.quantities[q];
    const double spread = std::hypot(population.traits[quantity.trait].spread, quantity.own_spread);
    CHECK(posterior.marginals[q].mean == Approx(0).margin(1e-12));
    CHECK(posterior.marginals[q].sd == Approx(spread).epsilon(1e-9));
    double square = 0;
    for (const double weight : posterior.scores[q].shared) square += weight * weight;
    for (const double weight : posterior.scores[q].own) square += weight * weight;
    CHECK(square == Approx(1).epsilon(1e-9));
  }
}

TEST_CASE("one unknown agrees with quadrature, however skewed") {
  Population population;
  population.traits = {{"scramble", 0.79, {}, 0, 0, 0, {1, 1, 1, 1}}};
  population.quantities = {{"scramble", 0, 1, 0, {-3.3}}};
  for (const auto& [made, of] :
       {std::pair(0.0, 12.0), {0.0, 60.0}, {0.0, 400.0}, {3.0, 12.0}, {40.0, 400.0}}) {
    CAPTURE(made, of);
    Evidence evidence;
    count(evidence, population, "scramble", made, of);
    const Marginal marginal = posterior_of(population, evidence).marginals.front();
    const Sampled truth = quadrature(0.79, -3.3, made, of);
    CHECK(std::abs(marginal.mean - truth.mean) < 1e-4 * truth.sd);
    CHECK(marginal.sd == Approx(truth.sd).epsilon(1e-4));
    CHECK(std::abs(marginal.at(-score95) - truth.low) < 0.02 * truth.sd);
    CHECK(std::abs(marginal.at(score95) - truth.high) < 0.02 * truth.sd);
  }
}

TEST_CASE("a marginal has the moments that it names") {
  for (const double skewness : {-1.2, -0.3, 0.0, 1e-5, 0.7}) {
    const Marginal marginal{0.4, 0.3, skewness};
    double total = 0, mean = 0, square = 0, cube = 0;
    for (double score = -12; score <= 12; score += 0.01) {
      const double weight = std::exp(-score * score / 2);
      const double off = marginal.at(score) - 0.4;
      total += weight;
      mean += weight * off;
      square += weight * off * off;
      cube += weight * off * off * off;
    }
    CHECK(mean / total == Approx(0).margin(1e-9));
    CHECK(std::sqrt(square / total) == Approx(0.3).epsilon(1e-6));
    CHECK(cube / total / std::pow(0.3, 3) == Approx(skewness).margin(2e-5).epsilon(1e-6));
  }
}

TEST_CASE("what is charted of one family moves the others, and a lone trait does not") {
  Population population = league();
  const Evidence evidence = one_family(population);
  const std::size_t deep = *population.find_quantity("deep_outside.completion");
  const Marginal together = posterior_of(population, evidence).marginals[deep];
  CHECK(together.mean > 0);
  CHECK(together.sd < std::hypot(0.19, 0.08));
  for (Trait& trait : population.traits)
    std::fill(trait.loadings.begin(), trait.loadings.end(), 0.0);
  CHECK(posterior_of(population, evidence).marginals[deep].mean == Approx(0).margin(1e-9));
}

TEST_CASE("tape of a lower level is worth much while there is little, and has a limit") {
  const Population population = league();
  const auto open = [&](double snaps, std::optional<std::size_t> level) {
    Evidence evidence;
    count(evidence, population, "quick_middle.completion", 0.7 * snaps, snaps);
    evidence.tallies[0].level = level;
    const auto at = *population.find_quantity("quick_middle.completion");
    return posterior_of(population, evidence).marginals[at].sd;
  };
  CHECK(open(50, 0) == Approx(open(50, std::nullopt)).epsilon(0.05));
  CHECK(open(5000, 0) > 2 * open(5000, std::nullopt));
}

TEST_CASE("a quantity that follows moves alone, and moves with what it follows") {
  Population population = league();
  Quantity success = population.quantities[*population.find_quantity("quick_middle.completion")];
  success.id = "quick_middle.success";
  success.slope = 0.7;
  success.follows = true;
  population.quantities.insert(population.quantities.begin() + 2, success);
  const std::size_t completion = *population.find_quantity("quick_middle.completion");
  Evidence evidence;
  count(evidence, population, "quick_middle.completion", 40, 80);
  const Posterior without = posterior_of(population, evidence);
  CHECK(without.marginals[2].mean < 0);
  CHECK(without.marginals[2].mean > without.marginals[completion].mean);
  count(evidence, population, "quick_middle.success", 60, 80);
  const Posterior with = posterior_of(population, evidence);
  CHECK(with.marginals[2].mean > without.marginals[2].mean);
  CHECK(with.marginals[2].sd < without.marginals[2].sd);
  CHECK(with.marginals[completion].mean == Approx(without.marginals[completion].mean));
  CHECK(correlation(population, with, 2, completion) <
        correlation(population, without, 2, completion));
  CHECK(correlation(population, with, 2, 2) == Approx(1).epsilon(1e-9));
}

// Sums of independent normals: what opponents to come do is independent of the man.
TEST_CASE("opponents to come move means by their effects and go together as they do") {
  Population population;
  population.factors = 1;
  population.traits = {{"a", 0.5, {0.8}, 0.2, 0, 0.9, {1, 1, 1, 1}},
                       {"b", 0.3, {-0.6}, 0.1, 0, -0.4, {1, 1, 1, 1}}};
  population.quantities = {
      {"a.1", 0, 1, 0.2, {0.4}}, {"a.2", 0, 1, 0, {0.1}}, {"b", 1, 2, 0.1, {-1}}};
  Evidence evidence;
  count(evidence, population, "a.1", 12, 40);
  const Posterior usual = posterior_of(population, evidence);
  evidence.coming = {{0.07, 0.15}, {-0.03, 0.2}};
  const Posterior coming = posterior_of(population, evidence);
  const auto slope = [&](std::size_t q) { return population.quantities[q].slope; };
  const auto effect = [&](std::size_t q) {
    return evidence.coming[population.quantities[q].trait];
  };
  for (std::size_t q = 0; q < 3; ++q) {
    CAPTURE(q);
    const Marginal& before = usual.marginals[q];
    const Marginal& after = coming.marginals[q];
    CHECK(after.mean == Approx(before.mean + slope(q) * effect(q).mean));
    CHECK(after.sd == Approx(std::hypot(before.sd, slope(q) * effect(q).spread)));
    CHECK(after.skewness * std::pow(after.sd, 3) ==
          Approx(before.skewness * std::pow(before.sd, 3)).margin(1e-12));
    for (std::size_t r = 0; r < q; ++r) {
      const double together = of_one_trait(population, q, r) ? 1 : 0.9 * -0.4;
      const double added = slope(q) * effect(q).spread * slope(r) * effect(r).spread * together;
      CHECK(score_correlation(population, coming, q, r) * after.sd * coming.marginals[r].sd ==
            Approx(score_correlation(population, usual, q, r) * before.sd * usual.marginals[r].sd +
                   added)
                .margin(1e-12));
    }
  }
}

TEST_CASE("counts that contradict themselves beyond measure give no number") {
  Population population;
  population.traits = {{"sack", 0.3, {}, 0, 0, 0, {1, 1, 1, 1}}};
  population.quantities = {{"sack", 0, 1, 0, {-2.6}}};
  for (const double trials : {1e3, 1e6, 1e9, 1e15}) {
    CAPTURE(trials);
    Evidence evidence;
    count(evidence, population, "sack", trials, trials);
    count(evidence, population, "sack", 0, trials);
    CHECK_THROWS_AS(posterior_of(population, evidence), Unsettled);
    CHECK_THROWS_WITH(posterior_of(population, evidence), Catch::Contains("no number is given"));
  }
  // As much as a whole career is no matter.
  Evidence evidence;
  count(evidence, population, "sack", 20000, 20000);
  CHECK(std::isfinite(posterior_of(population, evidence).marginals.front().mean));
}

TEST_CASE("thresholds give the population its mean") {
  for (const double spread : {0.0, 0.15, 0.8, 2.0})
    for (const double mean : {0.004, 0.036, 0.7})
      CHECK(mean_rate(threshold_of_mean(mean, spread), {0, spread, 0}) ==
            Approx(mean).epsilon(1e-9));
  // From memory: E logistic of a normal by the trapezoidal rule is checked against the probit
  // bound 1 / sqrt(1 + pi spread^2 / 8), good to .02.
  CHECK(mean_rate(1, {0, 1, 0}) ==
        Approx(1 / (1 + std::exp(-1 / std::sqrt(1 + M_PI / 8)))).margin(0.01));
}

TEST_CASE("posteriors agree with long Markov chains", "[slow-plain]") {
  const Population population = league();
  SECTION("the demo's new starter") { check(population, new_starter(population), 300000); }
  SECTION("12 snaps") { check(population, twelve_snaps(population), 200000); }
  SECTION("one family only") { check(population, one_family(population), 200000); }
  SECTION("no interception in 200") { check(population, no_interception(population), 200000); }
  SECTION("mixed levels") { check(population, mixed_levels(population), 200000); }
  SECTION("three opponents") { check(population, three_opponents(population), 200000); }
  SECTION("season totals") { check(population, season_totals(population), 200000); }
}

TEST_CASE("a wrong posterior would be found out", "[slow-plain]") {
  const Population population = league();
  const Evidence evidence = one_family(population);
  Population apart = population;
  for (Trait& trait : apart.traits) std::fill(trait.loadings.begin(), trait.loadings.end(), 0.0);
  const std::vector<Sampled> chain = sample(population, evidence, 60000);
  CHECK(departure(population, posterior_of(apart, evidence), chain).mean > mean_bound);
  Posterior wide = posterior_of(population, evidence);
  for (Marginal& marginal : wide.marginals) marginal.sd *= 1.07;
  CHECK(departure(population, wide, chain).sd > sd_bound);
}

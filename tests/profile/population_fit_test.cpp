#include "../support/example_setting.hpp"

#include <callfit/profile/population_fit.hpp>
#include <callfit/stats/beta.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

using namespace callfit;
using namespace callfit::testing;

namespace {

std::vector<std::vector<double>> numbers(const std::string& name) {
  std::ifstream file(std::string(CALLFIT_SOURCE_DIR "/tests/profile/") + name);
  REQUIRE(file);
  std::string line;
  std::getline(file, line);
  std::vector<std::vector<double>> rows;
  while (std::getline(file, line)) {
    std::istringstream in(line);
    rows.emplace_back();
    for (std::string field; std::getline(in, field, ',');) rows.back().push_back(std::stod(field));
  }
  return rows;
}

std::vector<MemberCounts> rat_tumours(std::size_t groups) {
  std::vector<MemberCounts> members;
  for (const auto& row : numbers("rat_tumours.csv"))
    if (members.size() < groups) members.push_back({row[1], row[2]});
  return members;
}

Beta beta_of(const BetaBinomialFit& fit) {
  return Beta::of_moments(fit.mean, fit.spread * fit.spread);
}

}  // namespace

// Rat tumours: Tarone (1982), Biometrics 38:215; Gelman and others, Bayesian Data Analysis, table
// 5.1. Maximum likelihood for the 70 historical groups: alpha 2.304768, beta 14.079707 (printed in
// the vignette of the CRAN package BayesGOF); log-likelihoods and the 71-group fit recomputed with
// SciPy 1.10.1.
TEST_CASE("the population of the rat tumour groups is the published one") {
  const BetaBinomialFit fit = fit_beta_binomial(rat_tumours(70));
  CHECK(beta_of(fit).a == Approx(2.304768).epsilon(2e-5));
  CHECK(beta_of(fit).b == Approx(14.079707).epsilon(2e-5));
  CHECK(fit.log_likelihood == Approx(-721.0010195).epsilon(1e-9));
  const BetaBinomialFit all = fit_beta_binomial(rat_tumours(71));
  CHECK(beta_of(all).a == Approx(2.34161).epsilon(2e-5));
  CHECK(beta_of(all).b == Approx(14.11480).epsilon(2e-5));
  CHECK(all.log_likelihood == Approx(-730.3384545).epsilon(1e-9));
}

// By definition: at the ends of a profile interval the best likelihood with that value fixed lies
// 1.353 below the top. Checked against a grid over the other parameter.
TEST_CASE("profile intervals end where the likelihood has fallen by 1.353") {
  const auto members = rat_tumours(71);
  const BetaBinomialFit fit = fit_beta_binomial(members);
  CHECK(fit.told_apart());
  for (const double end : {fit.mean90.low, fit.mean90.high}) {
    double best = -1e300;
    for (double log_strength = 0; log_strength < 6; log_strength += 0.005) {
      const Beta beta = Beta::of_mean(end, std::exp(log_strength));
      best = std::max(best, beta_binomial_log_likelihood(members, beta.a, beta.b));
    }
    CHECK(fit.log_likelihood - best == Approx(1.3527717).margin(1e-4));
  }
  CHECK(fit.spread90.low < fit.spread);
  CHECK(fit.spread < fit.spread90.high);
}

// Eighteen batters after 45 at-bats: Efron & Morris (1975), JASA 70:311-319; hits from the data of
// that paper, the rest of the season as in Efron & Morris (1977), Scientific American 236(5). Their
// estimator, which keeps .212 of each batter's difference from the mean, comes out 3.5 times nearer
// in squared error and nearer for 16 of the 18. Maximum likelihood keeps only .0537 (mean .265433,
// strength 793.26): 3.302 times nearer and nearer for 14, recomputed with SciPy 1.10.1
// (scipy.optimize.minimize over scipy.special.betaln).
TEST_CASE("shrunk estimates of the eighteen batters beat raw ones as published") {
  const auto rows = numbers("efron_morris.csv");
  REQUIRE(rows.size() == 18);
  std::vector<MemberCounts> members;
  double raw_mean = 0;
  for (const auto& row : rows) {
    members.push_back({row[1], row[2]});
    raw_mean += row[1] / row[2] / 18;
  }
  // Facts of the data: 215 hits in 810, and their shrinkage factor .212.
  double s = 0;
  for (const auto& row : rows) s += std::pow(row[1] / row[2] - raw_mean, 2);
  CHECK(raw_mean == Approx(.2654320988));
  CHECK(1 - 15 * raw_mean * (1 - raw_mean) / 45 / s == Approx(.2116534).epsilon(1e-5));

  const BetaBinomialFit fit = fit_beta_binomial(members);
  const Beta prior = beta_of(fit);
  double raw_error = 0;
  double shrunk_error = 0;
  int nearer = 0;
  for (const auto& row : rows) {
    const double raw = row[1] / row[2] - row[3];
    const double shrunk = (prior.a + row[1]) / (prior.strength() + row[2]) - row[3];
    raw_error += raw * raw;
    shrunk_error += shrunk * shrunk;
    nearer += std::abs(shrunk) < std::abs(raw) ? 1 : 0;
  }
  CHECK(raw_error == Approx(.07532).epsilon(2e-4));
  CHECK(prior.strength() == Approx(793.26).epsilon(1e-4));
  CHECK(raw_error / shrunk_error == Approx(3.3021).epsilon(1e-4));
  CHECK(nearer == 14);
  CHECK_FALSE(fit.told_apart());  // 45 at-bats hardly tell batters apart
}

TEST_CASE("members that are alike have no spread, and too little is refused") {
  const BetaBinomialFit alike = fit_beta_binomial({{10, 20}, {50, 100}, {25, 50}, {5, 10}});
  CHECK(alike.spread == 0);
  CHECK(alike.mean == Approx(0.5).epsilon(1e-4));
  CHECK(alike.spread90.low == 0);
  CHECK_THROWS_AS(fit_beta_binomial({{3, 9}}), std::invalid_argument);
  CHECK_THROWS_AS(fit_beta_binomial({{0, 9}, {0, 4}}), std::invalid_argument);
}

// 60 populations of 40 members with 80 trials each, drawn at mean .62 and spread .05. A 90%
// interval covers 60 times Binomial(60, .9): below 47 with probability 0.2% (mean 54, sd 2.3, three
// sd).
TEST_CASE("population intervals cover the truth") {
  const Beta truth = Beta::of_moments(0.62, 0.05 * 0.05);
  int mean_covered = 0;
  int spread_covered = 0;
  int wrong_covered = 0;  // the twin: a spread 60% larger
  for (std::uint64_t population = 0; population < 60; ++population) {
    Stream stream(31, Purpose::sampling, population);
    std::vector<MemberCounts> members;
    for (int m = 0; m < 40; ++m) {
      const double theta = draw(truth, stream);
      MemberCounts counts{0, 80};
      for (int i = 0; i < 80; ++i) counts.made += stream.uniform() < theta ? 1 : 0;
      members.push_back(counts);
    }
    const BetaBinomialFit fit = fit_beta_binomial(members);
    const auto holds = [](const Interval& in, double x) { return in.low <= x && x <= in.high; };
    mean_covered += holds(fit.mean90, 0.62) ? 1 : 0;
    spread_covered += holds(fit.spread90, 0.05) ? 1 : 0;
    wrong_covered += holds(fit.spread90, 0.08) ? 1 : 0;
  }
  CHECK(mean_covered >= 47);
  CHECK(spread_covered >= 47);
  CHECK(wrong_covered < 47);
}

TEST_CASE("charts of several quarterbacks give a setting's population") {
  const Setting setting = example_setting(false);
  std::vector<std::vector<Chart>> quarterbacks;
  const std::vector<int> made{40, 55, 62, 48, 70};
  for (const int complete : made) {
    Chart chart{"c.csv", {}};
    for (int i = 0; i < 101; ++i) {
      Snap snap;
      snap.family = "throw";
      snap.level = i == 100 ? "college" : "pro";
      snap.result = i < complete ? Result::complete : Result::incomplete;
      snap.yards = i < complete ? 6 : 0;
      chart.snaps.push_back(snap);
    }
    quarterbacks.push_back({chart});
  }
  const PopulationFit fit = fit_population(quarterbacks, setting);
  CHECK(fit.snaps == 500);
  CHECK(fit.other_levels == 5);
  for (const RatePopulationFit& rate : fit.rates) {
    const RatePopulation& old =
        *setting.families[rate.family].rates[static_cast<std::size_t>(rate.rate)];
    if (rate.family != pass_family) {
      CHECK(rate.quarterbacks == 0);
      CHECK_FALSE(rate.fit);
      CHECK(rate.better_than(old).mean == old.mean);
    } else if (rate.rate == Rate::completion) {
      REQUIRE(rate.fit);
      CHECK(rate.quarterbacks == 5);
      CHECK(rate.fit->mean == Approx(0.55).margin(0.01));
      CHECK(rate.fit->told_apart());
      CHECK(rate.better_than(old).spread == rate.fit->spread);
    } else if (rate.rate == Rate::sack) {
      CHECK_FALSE(rate.fit);  // one outcome only
    }
  }
}

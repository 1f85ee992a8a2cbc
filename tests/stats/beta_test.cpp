#include <callfit/stats/beta.hpp>
#include <callfit/stats/logit.hpp>

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <numeric>
#include <vector>

using namespace callfit;

namespace {

constexpr double pi = 3.14159265358979323846;

// Mean and standard error of draws.
struct Sampled {
  double mean = 0;
  double standard_error = 0;
};

template <class Draw>
Sampled sample(int draws, const Draw& next) {
  double sum = 0;
  double squares = 0;
  for (int i = 0; i < draws; ++i) {
    const double x = next();
    sum += x;
    squares += x * x;
  }
  const double mean = sum / draws;
  return {mean, std::sqrt((squares / draws - mean * mean) / draws)};
}

// Four standard errors: a true mean is left out once in 16,000 checks, and the seed is fixed.
bool holds(const Sampled& sampled, double expected) {
  return std::abs(sampled.mean - expected) < 4 * sampled.standard_error;
}

}  // namespace

// Computed with SciPy 1.10.1 (scipy.stats.beta.ppf), printed to ten decimals.
TEST_CASE("Beta quantiles agree with SciPy") {
  struct Row {
    double a, b;
    std::array<double, 5> at;  // 2.5%, 5%, 50%, 95%, 97.5%
  };
  const std::vector<Row> rows{
      {0.5, 0.5, {.0015413331, .0061558297, .5, .9938441703, .9984586669}},
      {2, 3, {.0675859865, .0976114629, .3857275681, .7513953743, .8058795503}},
      {1.4, 8.6, {.0098214735, .0164547602, .1160161120, .3460398058, .3998128668}},
      {5.4, 18.6, {.0853961770, .1017262046, .2172741384, .3747689089, .4077898662}},
      {18.5, 27.5, {.2667353074, .2868614830, .4007442093, .5223771660, .5456744297}},
      {10, 20, {.1793836492, .2004956976, .3295848794, .4790119100, .5083233538}},
      {100, 200, {.2811763758, .2892714260, .3329625066, .3786607587, .3875952120}}};
  constexpr std::array shares{0.025, 0.05, 0.5, 0.95, 0.975};
  for (const Row& row : rows)
    for (std::size_t i = 0; i < shares.size(); ++i) {
      CHECK(quantile({row.a, row.b}, shares[i]) == Approx(row.at[i]).margin(6e-11).epsilon(0));
      CHECK(cdf({row.a, row.b}, quantile({row.a, row.b}, shares[i])) ==
            Approx(shares[i]).epsilon(1e-12));
    }
}

// Closed form: Beta(1/2, 1/2) is the arcsine law, q(p) = sin^2(pi p / 2).
TEST_CASE("Beta(1/2, 1/2) is the arcsine law") {
  for (double p : {0.01, 0.2, 0.5, 0.77, 0.999})
    CHECK(quantile({0.5, 0.5}, p) == Approx(std::pow(std::sin(pi * p / 2), 2)).epsilon(1e-12));
}

// The four examples of Newcombe (1998), Statistics in Medicine 17:857-872. Clopper-Pearson,
// Jeffreys and uniform-prior ends recomputed with SciPy 1.10.1, 95%, to four decimals.
TEST_CASE("binomial intervals agree with published examples") {
  struct Row {
    double x, n, exact_low, exact_high, uniform_low, uniform_high;
  };
  const std::vector<Row> rows{{81, 263, .2527, .3676, .2553, .3663},
                              {15, 148, .0578, .1617, .0626, .1606},
                              {0, 20, 0, .1684, .0012, .1611},
                              {1, 29, .0009, .1776, .0082, .1722}};
  for (const Row& row : rows) {
    const auto four = [](double value) { return Approx(value).margin(5.1e-5).epsilon(0); };
    if (row.x > 0) CHECK(quantile({row.x, row.n - row.x + 1}, 0.025) == four(row.exact_low));
    CHECK(quantile({row.x + 1, row.n - row.x}, 0.975) == four(row.exact_high));
    CHECK(quantile({row.x + 1, row.n - row.x + 1}, 0.025) == four(row.uniform_low));
    CHECK(quantile({row.x + 1, row.n - row.x + 1}, 0.975) == four(row.uniform_high));
  }
}

// Closed form of the Dirichlet(2, 3, 5): mean (.2, .3, .5), variance m (1 - m) / 11; adding two
// parts gives Beta(5, 5).
TEST_CASE("Dirichlet draws have the published moments") {
  Stream stream(11, Purpose::sampling, 0);
  const std::vector<double> alpha{2, 3, 5};
  constexpr int draws = 40'000;
  const std::vector<double> mean{0.2, 0.3, 0.5};
  const std::vector<double> variance{.0145454545, .0190909091, .0227272727};
  for (std::size_t part = 0; part < 3; ++part) {
    CHECK(holds(sample(draws, [&] { return draw_dirichlet(alpha, stream)[part]; }), mean[part]));
    const auto square = [&] {
      return std::pow(draw_dirichlet(alpha, stream)[part] - mean[part], 2);
    };
    CHECK(holds(sample(draws, square), variance[part]));
  }
  const auto below = [&] {
    const auto p = draw_dirichlet(alpha, stream);
    return p[0] + p[1] < quantile({5, 5}, 0.2) ? 1.0 : 0.0;
  };
  CHECK(holds(sample(draws, below), 0.2));
  // The twin: one parameter 5% off must be noticed.
  const std::vector<double> wrong{2, 3, 5.25};
  CHECK_FALSE(holds(sample(draws, [&] { return draw_dirichlet(wrong, stream)[2]; }), 0.5));
}

TEST_CASE("Beta draws follow their distribution, small parameters too") {
  Stream stream(12, Purpose::sampling, 0);
  for (const Beta beta : {Beta{0.5, 0.5}, Beta{2, 30}, Beta{0.05, 0.4}, Beta{300, 200}})
    for (double share : {0.1, 0.5, 0.9}) {
      const double at = quantile(beta, share);
      CHECK(holds(sample(20'000, [&] { return draw(beta, stream) < at ? 1.0 : 0.0; }), share));
    }
  // Parameters as small as 1e-3: plain gamma draws would all underflow now and then.
  for (int i = 0; i < 1000; ++i) {
    const auto p = draw_dirichlet({1e-3, 1e-3, 1e-3}, stream);
    REQUIRE(std::abs(std::accumulate(p.begin(), p.end(), 0.0) - 1) < 1e-12);
  }
}

// Moments of the Beta distribution: E x^k = prod (a + i) / (a + b + i). A rule of n points is exact
// below degree 2n.
TEST_CASE("Beta nodes integrate polynomials exactly") {
  for (const Beta beta :
       {Beta{1, 1}, Beta{0.3, 2.5}, Beta{0.5, 0.5}, Beta{40, 160}, Beta{6, 600}}) {
    const Nodes nodes = beta_nodes(beta, 6);
    CHECK(std::accumulate(nodes.weight.begin(), nodes.weight.end(), 0.0) == Approx(1));
    double moment = 1;
    for (int k = 1; k < 12; ++k) {
      moment *= (beta.a + k - 1) / (beta.strength() + k - 1);
      double sum = 0;
      for (std::size_t i = 0; i < nodes.size(); ++i)
        sum += nodes.weight[i] * std::pow(nodes.at[i], k);
      CHECK(sum == Approx(moment).epsilon(1e-10));
    }
  }
}

TEST_CASE("log-odds shifts go there and back") {
  for (double p : {1e-6, 0.2, 0.5, 0.999}) {
    CHECK(shifted(shifted(p, 0.7), -0.7) == Approx(p).epsilon(1e-9));
    CHECK(shifted(p, 0.1) > p);
  }
  CHECK(shifted(0, 3) == 0);
  CHECK(shifted(1, -3) == 1);
  CHECK(shifted(0.5, std::log(3.0)) == Approx(0.75));
}

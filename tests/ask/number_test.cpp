// Numbers of draws, and what may be said of odds.
#include <callfit/ask/number.hpp>
#include <callfit/ask/verdict.hpp>
#include <callfit/base/random.hpp>

#include <boost/math/distributions/normal.hpp>
#include <boost/random/normal_distribution.hpp>
#include <catch2/catch.hpp>

#include <cmath>
#include <stdexcept>
#include <vector>

using namespace callfit;

namespace {

std::vector<double> normal_sample(std::size_t size, std::uint64_t seed) {
  Stream stream(seed, Purpose::player_draw, 0);
  boost::random::normal_distribution<double> normal;
  std::vector<double> sample(size);
  for (double& value : sample) value = normal(stream);
  return sample;
}

}  // namespace

TEST_CASE("a number holds the median and the central 90% of its draws") {
  std::vector<double> draws(1001);
  for (std::size_t i = 0; i < draws.size(); ++i) draws[i] = static_cast<double>((i * 8) % 1001);
  const Number number = number_of(draws);
  CHECK(number.centre == 500);
  CHECK(number.low == 50);
  CHECK(number.high == 950);
  CHECK(number.draws == 1001);
  CHECK_THROWS_AS(number_of(std::vector<double>(63, 1.0)), std::invalid_argument);
}

// The end of a normal sample's central 90% has the standard error sqrt(p (1 - p) / n) / density
// (textbook: asymptotic variance of a sample quantile, for example Serfling 1980, 2.3.3).
TEST_CASE("the stated error of an interval is what other seeds show") {
  constexpr std::size_t size = 4000;
  const boost::math::normal standard;
  const double z = quantile(standard, 0.95);
  const double error = std::sqrt(0.05 * 0.95 / size) / pdf(standard, z);
  double stated = 0;
  int beyond = 0;
  constexpr int seeds = 100;
  for (int seed = 0; seed < seeds; ++seed) {
    const Number number = number_of(normal_sample(size, static_cast<std::uint64_t>(seed)));
    stated += number.error / seeds;
    if (std::abs(number.high - z) > number.error) ++beyond;
  }
  CHECK(stated > 2 * error * 0.95);  // the larger of two ends' errors
  CHECK(stated < 2 * error * 1.6);
  CHECK(beyond <= 12);  // 1 in 20 where the error is known, somewhat more where it is estimated
}

TEST_CASE("numbers are scaled and moved with their ends") {
  const Number number{1, 0, 3, 100, 0.5};
  const Number flipped = scaled(number, -2);
  CHECK(flipped.centre == -2);
  CHECK(flipped.low == -6);
  CHECK(flipped.high == 0);
  CHECK(flipped.error == 1);
  CHECK(moved(number, 4).high == 7);
}

TEST_CASE("a verdict is clear from 19 in 20, leans from 3 in 4, else open") {
  const auto lean = [](double odds) { return Verdict{odds, 0, {}}.lean(); };
  CHECK(lean(0.95) == Lean::clear);
  CHECK(lean(0.97) == Lean::clear);
  CHECK(lean(0.03) == Lean::clear);
  CHECK(lean(0.949) == Lean::leans);
  CHECK(lean(0.25) == Lean::leans);
  CHECK(lean(0.74) == Lean::open);
  CHECK(lean(0.5) == Lean::open);
}

TEST_CASE("odds in words never say more than the odds") {
  const std::vector<std::pair<std::string, double>> meaning{
      {"99 in 100", 0.99}, {"19 in 20", 0.95},  {"9 in 10", 0.9}, {"4 in 5", 0.8},
      {"3 in 4", 0.75},    {"2 in 3", 2.0 / 3}, {"3 in 5", 0.6},  {"about even", 0.5}};
  for (int i = 0; i <= 1000; ++i) {
    const double odds = i / 1000.0;
    const double side = std::max(odds, 1 - odds);
    const std::string words = odds_words(odds);
    const auto found = std::find_if(meaning.begin(), meaning.end(),
                                    [&](const auto& entry) { return entry.first == words; });
    INFO(odds << ' ' << words);
    REQUIRE(found != meaning.end());
    CHECK(found->second <= side);
  }
}

TEST_CASE("words follow lean and side, and own up to a thin tape") {
  CHECK(ahead_words({0.96, 0, {}}, "A", "B") == ahead_words({0.99, 0, {}}, "A", "B"));
  CHECK(ahead_words({0.02, 0, {}}, "A", "B") == "B is clearly ahead of A");
  CHECK(reach_words({0.01, 0, {}}) == "clearly short");
  CHECK(reach_words({0.01, 0, 0.02}) != "clearly short");
  CHECK(reach_words({0.01, 0, 0.2}) == "clearly short");
  CHECK(reach_words({0.6, 0, 0.6}) == "open");
}

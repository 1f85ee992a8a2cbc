#include <ask/meeting.hpp>
#include <callfit/base/random.hpp>
#include <callfit/stats/interval.hpp>
#include <callfit/stats/normal.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace callfit;
using namespace callfit::ask;

namespace {

constexpr std::size_t draws = 4096;

Told normal(std::size_t quarterback, double mean, double sd) {
  Stream stream(3, Purpose::sampling, quarterback);
  Told told{quarterback, Column(draws)};
  for (double& value : told.draws) value = mean + sd * normal_quantile(stream.uniform());
  return told;
}

// Every difference of draws of the same block, one by one.
Column all_differences(const Told& first, const Told& second) {
  Column all;
  const std::size_t size = first.draws.size() / batch_count;
  for (std::size_t b = 0; b < batch_count; ++b)
    for (std::size_t i = b * size; i < (b + 1) * size; ++i)
      for (std::size_t j = b * size; j < (b + 1) * size; ++j)
        all.push_back(first.draws[i] - second.draws[j]);
  return all;
}

double cumulative_normal(double x) { return std::erfc(-x / std::sqrt(2.0)) / 2; }

}  // namespace

TEST_CASE("draws of two meet every way, as counted one by one") {
  const Told a = normal(0, 0.4, 1);
  const Told b = normal(1, 0, 2);
  const Meeting meeting(a, b);
  const Column all = all_differences(a, b);
  const auto above = std::count_if(all.begin(), all.end(), [](double x) { return x > 0; });
  CHECK(meeting.verdict().odds ==
        Approx(static_cast<double>(above) / static_cast<double>(all.size())).epsilon(1e-12));
  const auto [low, centre, high] = quantiles_of(all, std::array{0.05, 0.5, 0.95});
  const Number number = meeting.number();
  CHECK(number.low == Approx(low).margin(1e-4));
  CHECK(number.centre == Approx(centre).margin(1e-4));
  CHECK(number.high == Approx(high).margin(1e-4));
  CHECK(number.draws == draws);
  CHECK(meeting.mean() ==
        Approx(std::accumulate(all.begin(), all.end(), 0.0) / static_cast<double>(all.size())));
}

// The difference of independent normals is normal, its variance the sum of both (any textbook).
TEST_CASE("two normal quarterbacks differ as a normal does") {
  const Meeting meeting(normal(0, 1, 3), normal(1, 0, 4));
  const Verdict verdict = meeting.verdict();
  CHECK(std::abs(verdict.odds - cumulative_normal(1.0 / 5)) < 2 * verdict.error);
  const Number number = meeting.number();
  CHECK(std::abs(number.low - (1 - 1.6449 * 5)) < 2 * number.error);
  CHECK(std::abs(number.high - (1 + 1.6449 * 5)) < 2 * number.error);
}

TEST_CASE("a quarterback meets himself draw by draw") {
  const Told his = normal(0, 0, 1);
  const Meeting meeting(his + Column(draws, 0.25), his);
  CHECK(meeting.number().low == Approx(0.25));
  CHECK(meeting.number().high == Approx(0.25));
  CHECK(meeting.verdict().odds == 1);
}

TEST_CASE("clear is said where the interval leaves 0 out, and nowhere else") {
  const Told b = normal(1, 0, 1);
  for (double mean = 1.8; mean < 2.8; mean += 0.01) {
    const Meeting meeting(normal(0, mean, 1), b);
    CHECK((meeting.verdict().lean() == Lean::clear) == (meeting.number().low > 0));
  }
}

TEST_CASE("odds of the most add up to 1, and are those of the meeting where two meet") {
  const Told a = normal(0, 0.3, 1);
  const Told b = normal(1, 0, 1);
  const Told c = normal(2, 0, 1);
  const auto two = odds_of_being_most({a, b});
  CHECK(two[0] == Approx(Meeting(a, b).verdict().odds).epsilon(1e-12));
  CHECK(two[0] + two[1] == Approx(1));
  // The same quarterback in a scheme that is better in every draw, and once more: these two share.
  const Told better = b + Column(draws, 0.1);
  const auto all = odds_of_being_most({a, b, better, better, c});
  CHECK(std::accumulate(all.begin(), all.end(), 0.0) == Approx(1));
  CHECK(all[1] == 0);
  CHECK(all[2] == Approx(all[3]));
}

// Of three alike each is the best in one case of three.
TEST_CASE("three alike have a third each") {
  const auto odds = odds_of_being_most({normal(0, 0, 1), normal(1, 0, 1), normal(2, 0, 1)});
  for (const double value : odds) CHECK(std::abs(value - 1.0 / 3) < 4 * 0.5 / std::sqrt(draws));
}

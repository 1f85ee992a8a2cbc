#include <callfit/stats/distance.hpp>
#include <callfit/stats/interval.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

using namespace callfit;

namespace {

// Inverse of [[1,.5,.5],[.5,1,.5],[.5,.5,1]], by hand: 2 I - J / 2.
const Matrix docstring_covariance{{1.5, -0.5, -0.5}, {-0.5, 1.5, -0.5}, {-0.5, -0.5, 1.5}};

// The least u' R^-1 u over u >= s by a grid search that knows nothing of multipliers.
double by_grid(const std::vector<double>& s, double rho) {
  double least = 1e300;
  const double det = 1 - rho * rho;
  for (int i = 0; i <= 2000; ++i)
    for (int j = 0; j <= 2000; ++j) {
      const double u = s[0] + 0.003 * i;
      const double v = s[1] + 0.003 * j;
      least = std::min(least, (u * u - 2 * rho * u * v + v * v) / det);
    }
  return least;
}

}  // namespace

// The docstring of scipy.spatial.distance.mahalanobis (SciPy 1.10.1), and a hand-made case.
TEST_CASE("Mahalanobis distances are the published ones") {
  const auto distance = [](const std::vector<double>& x) {
    return std::sqrt(mahalanobis_squared(x, docstring_covariance));
  };
  CHECK(distance({1, -1, 0}) == Approx(1.0));
  CHECK(distance({0, 1, 0}) == Approx(1.0));
  CHECK(distance({2, -1, 0}) == Approx(1.7320508075688772));
  CHECK(mahalanobis_squared({2, 1}, {{4, 2}, {2, 3}}) == Approx(1.0));
}

TEST_CASE("where every bound binds, the shortfall distance is the Mahalanobis form") {
  CHECK(std::sqrt(shortfall_distance({0, 1, 0}, docstring_covariance).squared) == Approx(1.0));
  CHECK(std::sqrt(shortfall_distance({2, -1, 0}, docstring_covariance).squared) ==
        Approx(1.7320508075688772));
  CHECK(shortfall_distance({2, 1}, {{4, 2}, {2, 3}}).squared == Approx(1.0));
  const Matrix r{{1, 0.3, 0.1}, {0.3, 1, 0.4}, {0.1, 0.4, 1}};
  CHECK(shortfall_distance({1, 1.2, 0.9}, r).squared ==
        Approx(mahalanobis_squared({1, 1.2, 0.9}, r)));
}

TEST_CASE("without correlation only what is missing counts") {
  const Matrix identity{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  const ShortfallDistance distance = shortfall_distance({1.5, -2, 0.5}, identity);
  CHECK(distance.squared == Approx(1.5 * 1.5 + 0.25));
  CHECK(distance.part[1] == 0);
}

TEST_CASE("the shortfall distance is the least over all that meets the bounds") {
  for (double rho : {0.6, -0.5, 0.9})
    for (const std::vector<double>& s :
         {std::vector<double>{1, 1}, {1, -1}, {0.4, 1.3}, {-0.2, 0.9}, {-1, -0.5}}) {
      const ShortfallDistance distance = shortfall_distance(s, {{1, rho}, {rho, 1}});
      INFO("rho " << rho << ", short by " << s[0] << ", " << s[1]);
      // A grid of 0.003 misses the least value by at most its slope times half a step.
      CHECK(distance.squared == Approx(by_grid(s, rho)).margin(0.015));
      CHECK(distance.part[0] + distance.part[1] == distance.squared);
    }
}

TEST_CASE("being less short never makes the distance larger") {
  const Matrix r{{1, 0.7, -0.2}, {0.7, 1, 0.3}, {-0.2, 0.3, 1}};
  for (double a = -1; a < 2; a += 0.5)
    for (double b = -1; b < 2; b += 0.5)
      for (double c = -1; c < 2; c += 0.5)
        for (std::size_t i = 0; i < 3; ++i) {
          std::vector<double> less{a, b, c};
          less[i] -= 0.25;
          CHECK(shortfall_distance(less, r).squared <=
                shortfall_distance({a, b, c}, r).squared + 1e-12);
        }
  // The twin: the plain Mahalanobis form of the shortfalls would punish a better player.
  const Matrix pair{{1, 0.7}, {0.7, 1}};
  CHECK(mahalanobis_squared({1, 0}, pair) > mahalanobis_squared({1, 0.7}, pair));
}

TEST_CASE("only a symmetric positive definite matrix will do") {
  CHECK(is_covariance({{1, 0.5}, {0.5, 1}}));
  CHECK_FALSE(is_covariance({{1, 0.5}, {0.4, 1}}));
  CHECK_FALSE(is_covariance({{1, 1.2}, {1.2, 1}}));
  CHECK_FALSE(is_covariance({{1, 0}}));
  CHECK_THROWS_AS(mahalanobis_squared({1, 2}, {{1, 2}, {2, 1}}), std::invalid_argument);
}

// Type 7 of Hyndman & Fan (1996), as numpy.quantile's default: numpy 1.24.2 gives 1.2 and 4.8 for
// 1..5 at 5% and 95%.
TEST_CASE("sample quantiles are those of type 7") {
  const Interval interval = interval90_of({5, 1, 4, 2, 3});
  CHECK(interval.low == Approx(1.2));
  CHECK(interval.high == Approx(4.8));
  CHECK(quantile_of({2, 4}, 0.5) == Approx(3));
  CHECK_THROWS_AS(interval90_of({}), std::invalid_argument);
}

#include <callfit/stats/rank.hpp>

#include <catch2/catch.hpp>

#include <stdexcept>

using namespace callfit;

// Worked example of Wikipedia, "Spearman's rank correlation coefficient" (IQ against hours of
// television of ten people; from memory, recomputed with scipy.stats.spearmanr): -29/165.
TEST_CASE("Spearman's coefficient of a textbook example") {
  const std::vector<double> iq{106, 100, 86, 101, 99, 103, 97, 113, 112, 110};
  const std::vector<double> hours{7, 27, 2, 50, 28, 29, 20, 12, 6, 17};
  CHECK(spearman(iq, hours) == Approx(-29.0 / 165).epsilon(1e-12));
}

TEST_CASE("Spearman's coefficient with ties, order and nothing to order") {
  CHECK(ranks_of({3, 1, 3, 2}) == std::vector<double>{3.5, 1, 3.5, 2});
  // scipy.stats.spearmanr([1, 2, 2, 4], [1, 3, 2, 4]) = 0.948683298...
  CHECK(spearman({1, 2, 2, 4}, {1, 3, 2, 4}) == Approx(0.9486832980505138).epsilon(1e-12));
  CHECK(spearman({1, 2, 3}, {10, 100, 1000}) == Approx(1));
  CHECK(spearman({1, 2, 3}, {3, 2, 1}) == Approx(-1));
  CHECK(spearman({1, 1, 1}, {3, 2, 1}) == 0);
  CHECK_THROWS_AS(spearman({1}, {1}), std::invalid_argument);
  CHECK_THROWS_AS(spearman({1, 2}, {1, 2, 3}), std::invalid_argument);
}

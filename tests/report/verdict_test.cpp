#include <callfit/report/reports.hpp>

#include <catch2/catch.hpp>

using namespace callfit;
using Catch::Matchers::Contains;

namespace {

Difference per_game(double value, double low, double high, double chance) {
  Difference difference;
  difference.net_per_game = {value, {low, high}};
  difference.chance_first_better = chance;
  return difference;
}

}  // namespace

TEST_CASE("a verdict claims a lead only when the interval lies on one side") {
  CHECK_THAT(verdict("A", "B", per_game(2.0, 0.4, 3.5, 0.98)),
             Contains("A is worth 2.0 net points a game more than B"));
  CHECK_THAT(verdict("A", "B", per_game(-2.0, -3.5, -0.4, 0.02)),
             Contains("B is worth 2.0 net points a game more than A"));
}

TEST_CASE("a toss-up is called a toss-up, a lean a lean") {
  const std::string even = verdict("A", "B", per_game(0.2, -2.0, 2.4, 0.55));
  CHECK_THAT(even, Contains("A toss-up between A and B"));
  CHECK_THAT(even, !Contains("is worth"));
  const std::string lean = verdict("A", "B", per_game(-1.0, -2.4, 0.3, 0.11));
  CHECK_THAT(lean, Contains("leans to B but does not settle it"));
  CHECK_THAT(lean, Contains("the chance that B is ahead is 89%"));
}

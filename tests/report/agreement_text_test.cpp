#include <callfit/report/agreement_text.hpp>

#include <catch2/catch.hpp>

using namespace callfit;

namespace {

Chart chart(const char* name, std::initializer_list<Result> results) {
  Chart chart{name, {}};
  for (const Result result : results) {
    Snap snap;
    snap.game = "G1";
    snap.level = "college";
    snap.family = "boot";
    snap.yards_to_goal = 80 - static_cast<int>(chart.snaps.size());
    snap.result = result;
    snap.line = chart.snaps.size() + 2;
    chart.snaps.push_back(snap);
  }
  return chart;
}

constexpr auto hit = Result::complete;
constexpr auto miss = Result::incomplete;

}  // namespace

TEST_CASE("agreement is told in columns, rates and rows") {
  const Chart a = chart("a.csv", {hit, hit, miss, miss});
  const Chart b = chart("b.csv", {hit, miss, miss, miss, hit});
  const std::string text = agreement_text(agreement(a, b), a, b, 20);
  CHECK_THAT(text, Catch::StartsWith("A: a.csv\nB: b.csv\n"
                                     "4 snaps in both, 0 only in A, 1 only in B.\n"));
  // By hand: 3 of 4 alike, expected 1/2 * 1/4 + 1/2 * 3/4 = 1/2, kappa 1/2.
  CHECK_THAT(text, Catch::Contains("result") && Catch::Contains("75%   0.50"));
  CHECK_THAT(text, Catch::Contains("moderate"));
  CHECK_THAT(text, Catch::Contains("-25.0 points"));
  CHECK_THAT(text, Catch::Contains("     3       3  result  complete  incomplete"));
  CHECK_THAT(agreement_text(agreement(a, b), a, b, 0), Catch::Contains("... and 1 more"));
}

TEST_CASE("equal charts and charts without a common game are told as such") {
  const Chart a = chart("a.csv", {hit, miss});
  CHECK_THAT(agreement_text(agreement(a, a), a, a, 20), Catch::Contains("No row disagrees."));
  Chart other = a;
  for (Snap& snap : other.snaps) snap.game = "G2";
  CHECK_THAT(agreement_text(agreement(a, other), a, other, 20),
             Catch::Contains("Nothing to compare"));
}

// Landis & Koch (1977); cut-offs from memory.
TEST_CASE("kappa has a word") {
  CHECK(kappa_word(-0.1) == "poor");
  CHECK(kappa_word(0.2) == "slight");
  CHECK(kappa_word(0.41) == "moderate");
  CHECK(kappa_word(0.81) == "almost perfect");
}

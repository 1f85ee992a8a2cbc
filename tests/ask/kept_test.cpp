// What was said, held against what came.
#include <callfit/ask/kept.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/format/kept.hpp>

#include <boost/math/distributions/binomial.hpp>
#include <catch2/catch.hpp>

#include <cmath>

using namespace callfit;

namespace {

Profile season(double made, double of) {
  Profile profile;
  FamilyProfile boot;
  boot.id = "boot";
  RateEstimate& completion = boot.rates[static_cast<std::size_t>(Rate::completion)].emplace();
  completion.counts = {made, of, made, of};
  profile.families.push_back(boot);
  return profile;
}

KeptAnswer said(double asked, const Number& estimate, double odds, bool more = true) {
  return {"2026-08-30",
          "A",
          "B",
          100,
          {{"opener", 100}},
          {{"boot", "Boot", Measure::completion, {}, "completion", asked, more, estimate, odds}}};
}

const Number sure{0.6, 0.5999, 0.6001, 0, 0};

}  // namespace

// A rate that is all but known leaves the binomial alone (Boost.Math's distribution).
TEST_CASE("odds of a count are the binomial's where the rate is known") {
  const KeptScore score = score_of({said(0.62, sure, 0.01)}, season(30, 50));
  REQUIRE(score.outcomes.size() == 1);
  const boost::math::binomial_distribution<double> counts(50, 0.6);
  const double on_the_line = pdf(counts, 31.0);  // 0.62 of 50 is 31
  const double above = 1 - cdf(counts, 31.0);
  CHECK(score.outcomes[0].odds == Approx(above + on_the_line / 2).margin(1e-3));
  CHECK(score.outcomes[0].came == 0);
  CHECK(score.brier == Approx(std::pow(score.outcomes[0].odds, 2)));
}

TEST_CASE("a belief that is not sure widens the odds, less asked turns them round") {
  const Number open{0.6, 0.45, 0.74, 4000, 0.01};
  const double known = score_of({said(0.5, sure, 1)}, season(40, 50)).outcomes[0].odds;
  const KeptScore wide = score_of({said(0.5, open, 0.9)}, season(40, 50));
  CHECK(wide.outcomes[0].odds < known);
  CHECK(wide.outcomes[0].odds > 0.5);
  const KeptScore less = score_of({said(0.5, open, 0.1, false)}, season(40, 50));
  CHECK(less.outcomes[0].odds == Approx(1 - wide.outcomes[0].odds).epsilon(1e-9));
  CHECK(less.outcomes[0].came == 0);
  CHECK(wide.outcomes[0].came == 1);
}

TEST_CASE("what was charted too seldom is left out, what falls on the line counts half") {
  CHECK(score_of({said(0.5, sure, 0.9)}, season(5, 9)).left_out == 1);
  CHECK(score_of({said(0.5, sure, 0.9)}, season(5, 9)).outcomes.empty());
  CHECK(score_of({said(0.5, sure, 0.9)}, season(10, 20)).outcomes[0].came == 0.5);
}

TEST_CASE("verdicts are gathered by how far they leaned") {
  const KeptScore score =
      score_of({said(0.5, sure, 0.97), said(0.7, sure, 0.2), said(0.6, sure, 0.5)}, season(30, 50));
  for (const KeptGroup& group : score.groups) CHECK(group.verdicts == 1);
  CHECK(score.groups[0].came == 1);
  CHECK(score.groups[1].came == 1);
  CHECK(score.groups[2].came == 0.5);
}

TEST_CASE("a kept answer written and read back is the same") {
  const KeptAnswer kept = said(0.62, {0.6, 0.5, 0.7, 0, 0}, 0.31, false);
  const KeptAnswer back = parse_kept(kept_to_json(kept), "k.json");
  CHECK(back.date == kept.date);
  REQUIRE(back.games.size() == 1);
  CHECK(back.games[0].game == "opener");
  CHECK(back.games[0].snaps == 100);
  CHECK(back.verdicts[0].estimate.low == 0.5);
  CHECK(back.verdicts[0].odds == 0.31);
  CHECK_FALSE(back.verdicts[0].more_is_better);
  CHECK_THROWS_WITH(require_date("28.11.2026"),
                    "28.11.2026: is no date; give a date such as 2026-11-28");
}

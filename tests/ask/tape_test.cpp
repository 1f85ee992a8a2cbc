#include "../support/example_setting.hpp"

#include <callfit/ask/charting.hpp>
#include <callfit/ask/trend.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace callfit;
using namespace callfit::testing;

namespace {

// The example setting with the least of rules that drives need.
Setting playable_setting() {
  Setting setting = example_setting();
  const YardPmf here{0, {1.0}};
  setting.rules.safety_kick_start = {40, {1.0}};
  setting.turnovers = {here, 0, here, 0};
  setting.fumble_lost = {0.05, 0.005, 0.01, 0.01, 0.01};
  setting.fourth_down = {{{{}, {}, {1, 35}}, 0, 0, 1}, {{}, 0, 1, 0}};
  setting.field_goal = {6, -0.1, 60};
  setting.punts = {{{1, 99}, 0.05, 0, {40, {1.0}}}};
  setting.kickoff = {{25, {1.0}}, 0};
  setting.starts = {{"kickoff", 1, {25, {1.0}}}};
  setting.quality = {{1, {}}};
  return setting;
}

Scheme playable_scheme() {
  Scheme scheme;
  scheme.id = "scheme";
  const auto family = [](const char* id, FamilyKind kind) {
    Family out;
    out.id = id;
    out.label = id;
    out.kind = kind;
    return out;
  };
  scheme.families = {family("throw", FamilyKind::pass), family("keep", FamilyKind::qb_run),
                     family("give", FamilyKind::handoff)};
  scheme.situations = {{"any", "", {}, {0.7, 0.02, 0.28}, {}, 0}};
  scheme.demands = {{0, Measure::completion, {}, 0.66, 1, true},
                    {1, Measure::run_gain, {}, 5, 1, true}};
  return scheme;
}

Chart season() {
  Chart chart{"season.csv", {}};
  for (int i = 0; i < 90; ++i) {
    Snap snap;
    snap.game = "game " + std::to_string(1 + i / 30);
    snap.level = "pro";
    snap.family = "throw";
    snap.result = i % 3 == 0 ? Result::incomplete : Result::complete;
    snap.yards = i % 3 == 0 ? 0 : 8;
    chart.snaps.push_back(snap);
  }
  return chart;
}

}  // namespace

TEST_CASE("a trend begins before the season and narrows as games come in") {
  const Setting setting = playable_setting();
  const Matchup matchup = make_matchup(setting, playable_scheme(), playable_scheme());
  const auto followed = demands_to_follow(matchup.bound);
  REQUIRE(followed.size() == 2);
  const DrawOptions options{1, 60, 2};
  const auto steps =
      trend_of("test", {}, {season()}, matchup, weighting_of(setting), {}, followed, options);
  REQUIRE(steps.size() == 4);
  CHECK(steps[0].game.empty());
  CHECK(steps[0].effective_snaps == 0);
  CHECK(steps[0].followed[0].value == Approx(0.62));
  CHECK(steps[1].game == "game 1");
  CHECK(steps[1].snaps == 30);
  CHECK(steps[3].effective_snaps == 90);
  const auto width = [](const UncertainValue& v) { return v.interval90.high - v.interval90.low; };
  CHECK(width(steps[3].followed[0]) < 0.8 * width(steps[0].followed[0]));
  // The last step is the profile of the whole chart.
  const Profile whole = build_profile("test", {season()}, setting, weighting_of(setting));
  CHECK(steps[3].followed[0].value ==
        whole.families[0].rates[static_cast<std::size_t>(Rate::completion)]->mean);
  CHECK(first_answer_held(steps));
  std::vector<TrendStep> moved = steps;
  moved.back().fit.value = moved.front().fit.interval90.high + 1;
  CHECK_FALSE(first_answer_held(moved));
}

TEST_CASE("what is never called is not worth charting, what is called much is") {
  const Setting setting = playable_setting();
  const Matchup matchup = make_matchup(setting, playable_scheme(), playable_scheme());
  const Profile profile = build_profile("test", {season()}, setting, weighting_of(setting));
  const ChartingAdvice one = what_to_chart(profile, matchup, {1, 200, 1});
  const ChartingAdvice two = what_to_chart(profile, matchup, {1, 200, 2});
  REQUIRE(one.rows.size() == 3);
  double shares = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(one.rows[i].family == two.rows[i].family);
    CHECK(one.rows[i].net_points.share.first == two.rows[i].net_points.share.first);
    CHECK(one.rows[i].net_points.narrowing >= 0);
    CHECK(one.rows[i].net_points.narrowing < 1);
    if (i > 0) CHECK(one.rows[i].net_points.narrowing <= one.rows[i - 1].net_points.narrowing);
    shares += one.rows[i].net_points.share.first;
    // Called on 2% of snaps: next to nothing of the points' variance (four standard errors).
    if (one.rows[i].family == run_family)
      CHECK(one.rows[i].net_points.share.first <
            0.05 + 4 * one.rows[i].net_points.share.standard_error);
  }
  // Families cause nearly all; scrambles' and sacks' yards, which they share, the rest.
  CHECK(shares > 0.5);
  CHECK(shares < 1.3);
}

#include <callfit/base/finding.hpp>
#include <callfit/scheme/call_chart.hpp>

#include <catch2/catch.hpp>

#include <numeric>

using namespace callfit;

namespace {

Scheme base_scheme() {
  Scheme scheme;
  scheme.id = "base";
  scheme.name = "Base";
  scheme.source = "assumed";
  scheme.families = {{"boot", "Boot", FamilyKind::pass, "", ""},
                     {"dive", "Dive", FamilyKind::handoff, "", ""},
                     {"draw", "Draw", FamilyKind::qb_run, "", ""}};
  CallSituation third;
  third.id = "third";
  third.when.down = {3, 3};
  third.share = {1, 0, 0};
  CallSituation rest;
  rest.id = "rest";
  rest.share = {0.7, 0.3, 0};
  rest.share_by_shell[0] = {1, 0, 0};
  scheme.situations = {third, rest};
  return scheme;
}

Chart calls(std::initializer_list<std::pair<int, const char*>> rows) {
  Chart chart{"calls.csv", {}};
  for (const auto& [down, family] : rows) {
    Snap snap;
    snap.down = down;
    snap.family = family;
    snap.line = chart.snaps.size() + 2;
    chart.snaps.push_back(snap);
  }
  return chart;
}

}  // namespace

TEST_CASE("call shares are the Dirichlet-multinomial's posterior means") {
  // By hand, with 4 snaps of the base's own mix in each situation: third down boot (1 + 4 * 1) / 2
  // + 4 = 5/6 and dive 1/6, the rest boot (3 + 4 * 0.7) / 10 = 0.58. A draw, which the base calls
  // nowhere and nobody charted, stays at 0.
  const Chart chart = calls({{3, "boot"},
                             {3, "dive"},
                             {1, "boot"},
                             {1, "boot"},
                             {2, "boot"},
                             {1, "dive"},
                             {2, "dive"},
                             {1, "dive"}});
  const Scheme scheme = scheme_from_calls(base_scheme(), {chart}, 4);
  CHECK(scheme.situations[0].share[0] == Approx(5.0 / 6).epsilon(1e-12));
  CHECK(scheme.situations[0].share[1] == Approx(1.0 / 6).epsilon(1e-12));
  CHECK(scheme.situations[1].share[0] == Approx(0.58).epsilon(1e-12));
  CHECK(scheme.situations[1].share[2] == 0);
  CHECK(scheme.situations[0].snaps == 2);
  CHECK(scheme.situations[1].snaps == 6);
  CHECK_FALSE(scheme.situations[1].share_by_shell[0]);
  for (const CallSituation& situation : scheme.situations)
    CHECK(std::accumulate(situation.share.begin(), situation.share.end(), 0.0) ==
          Approx(1).epsilon(1e-12));
}

TEST_CASE("without smoothing shares are plain counts, and an unmet situation keeps the base's") {
  const Scheme scheme = scheme_from_calls(base_scheme(), {calls({{1, "dive"}, {1, "boot"}})}, 0);
  CHECK(scheme.situations[0].share == std::vector<double>{1, 0, 0});
  CHECK(scheme.situations[1].share == std::vector<double>{0.5, 0.5, 0});
}

TEST_CASE("unknown families and empty charts are refused") {
  CHECK_THROWS_WITH(scheme_from_calls(base_scheme(), {calls({{1, "dive"}, {2, "bot"}})}),
                    "calls.csv:3: family: the scheme has no family \"bot\"; did you mean boot?");
  CHECK_THROWS_WITH(scheme_from_calls(base_scheme(), {calls({{1, ""}})}),
                    "the charts hold no calls; chart the family of each snap");
}

#include <callfit/chart/odd_rows.hpp>

#include <catch2/catch.hpp>

#include <string>

using namespace callfit;

namespace {

struct Row {
  int down, to_go, spot, yards;
  Result result = Result::run;
  int quarter = 1;
};

Chart chart_of(const std::vector<Row>& rows) {
  Chart chart{"c.csv", {}};
  for (const Row& row : rows) {
    Snap snap;
    snap.game = "G1";
    snap.level = "college";
    snap.family = "dive";
    snap.down = row.down;
    snap.to_go = row.to_go;
    snap.yards_to_goal = row.spot;
    snap.yards = row.yards;
    snap.result = row.result;
    snap.quarter = row.quarter;
    snap.line = chart.snaps.size() + 2;
    chart.snaps.push_back(snap);
  }
  return chart;
}

std::string told(const Chart& chart) {
  std::string text;
  for (const Finding& finding : odd_rows(chart)) text += to_text(finding) + "\n";
  return text;
}

}  // namespace

TEST_CASE("drives that follow their downs are not odd") {
  const auto rows = GENERATE(values<std::vector<Row>>({
      {{1, 10, 75, 4}, {2, 6, 71, 7}, {1, 10, 64, 64}},                 // a series and a touchdown
      {{1, 10, 75, 0}, {2, 10, 75, 3}, {3, 7, 72, 2}, {1, 10, 60, 5}},  // punted, the next drive
      {{1, 10, 75, 0}, {2, 10, 75, 3}, {3, 7, 72, 2}, {4, 5, 70, 1}, {1, 10, 90, 2}},
      {{1, 10, 12, 4}, {2, 6, 8, 6}, {1, 2, 2, 1}, {2, 1, 1, 1}},  // goal to go
      {{1, 10, 75, 0, Result::no_play}, {1, 15, 80, 5}, {2, 10, 75, 1}},
      {{1, 10, 75, 0, Result::intercepted}, {1, 10, 40, 5}},
      {{2, 10, 75, 3, Result::run, 2}, {1, 10, 75, 3, Result::run, 3}},  // the half between
      {{1, 10, 75, 4}, {2, 6, 70, 1}},                                   // a yard of rounding
  }));
  CHECK(told(chart_of(rows)).empty());
}

TEST_CASE("each odd row has its warning") {
  struct Case {
    std::vector<Row> rows;
    const char* text;
  };
  const auto one = GENERATE(values<Case>({
      {{{1, 10, 75, 4}, {1, 10, 71, 2}},
       "c.csv:3: warning: down: a first down that does not follow from first and 10 with 75 to the "
       "goal and a gain of 4 on line 2; chart the foul as a no_play row, or mend the row\n"},
      {{{1, 10, 75, 4}, {2, 6, 71, 2}, {2, 6, 71, 2}},
       "c.csv:4: warning: down: the same snap as line 3; drop one of them if it was charted "
       "twice\n"},
      {{{1, 10, 75, 4}, {3, 6, 71, 2}},
       "c.csv:3: warning: down: third down after first and 10 with 75 to the goal and a gain of 4 "
       "on line 2; mend the down, or add the row between\n"},
      {{{1, 10, 75, 12}, {2, 10, 63, 2}},
       "c.csv:3: warning: down: second down after first and 10 with 75 to the goal and a gain of "
       "12 "
       "on line 2, which made a first down; mend the down, the yards or the distance\n"},
      {{{1, 10, 75, 4}, {2, 6, 55, 2}},
       "c.csv:3: warning: yards_to_goal: the ball jumps to 55 after first and 10 with 75 to the "
       "goal "
       "and a gain of 4 on line 2; give 71, or chart the foul between as a no_play row\n"
       "c.csv:3: warning: to_go: 6 to go does not follow from first and 10 with 75 to the goal and "
       "a "
       "gain of 4 on line 2; mend the spot or the distance\n"},
      {{{1, 10, 75, 4}, {2, 10, 71, 2}},
       "c.csv:3: warning: to_go: 10 to go does not follow from first and 10 with 75 to the goal "
       "and "
       "a gain of 4 on line 2; give 6\n"},
      {{{3, 10, 75, 4}, {2, 10, 71, 2}},
       "c.csv:3: warning: down: second down after third and 10 with 75 to the goal and a gain of 4 "
       "on line 2; add the row between, or mend the down\n"},
      {{{1, 8, 75, 4}},
       "c.csv:2: warning: to_go: first and 8 is rare; first downs have 10 to go, or the distance "
       "to "
       "the goal\n"},
      {{{1, 10, 75, 75, Result::run, 3}, {1, 10, 75, 2, Result::run, 2}},
       "c.csv:3: warning: quarter: quarter 2 after quarter 3; keep rows in order of play\n"},
      {{{1, 10, 75, 0, Result::no_play}, {3, 10, 75, 1}},
       "c.csv:3: warning: down: third down after a replayed first down; mend the down, or add the "
       "row between\n"},
  }));
  CHECK(told(chart_of(one.rows)) == one.text);
}

TEST_CASE("games, levels, ids and catches that do not fit together") {
  Chart chart = chart_of({{1, 10, 75, 75}, {1, 10, 70, 70}, {1, 10, 65, 65}});
  chart.snaps[1].game = "G2";
  chart.snaps[2].level = "high_school";
  chart.snaps[0].snap_id = chart.snaps[1].snap_id = "a";
  chart.snaps[2].result = Result::complete;
  chart.snaps[2].catchable = false;
  CHECK(
      told(chart) ==
      "c.csv:3: warning: snap_id: the id is that of line 2; give each snap its own, or drop the "
      "row if it is there twice\n"
      "c.csv:4: warning: catchable: caught, yet charted as not catchable; a ball that was caught "
      "was catchable\n"
      "c.csv:4: warning: game: G1 comes back after G2; keep the rows of a game together, in order "
      "of play\n"
      "c.csv:4: warning: level: high_school, but college on line 2; give a game one level\n");
}

// Charts made elsewhere come back byte for byte but for what was changed.
#include <callfit/charting/chart_rows.hpp>

#include <catch2/catch.hpp>

using namespace callfit;
using namespace callfit::charting;

namespace {

const std::string elsewhere =
    "\xEF\xBB\xBF\r\nResult;Coach's word;Game;level;DOWN;to go;yards to goal;family;yards;note\r\n"
    " Complete ;\"say \"\"go\"\"; now\";G1;college;1;10;+75;Boot;08;\"two\r\nlines\"\r\n"
    ";;;;;;;;;\r\n"
    "run;x;\"G1\";college;2;2;67;hand off;3;";

const std::string plain_chart =
    "game,level,down,to_go,yards_to_goal,family,result,yards\n"
    "G1,college,1,10,75,boot,complete,4\n";

ChartRows rows_of(const std::string& text) {
  ChartWords words;
  words.families = {{"boot", "Boot", FamilyKind::pass, "", ""},
                    {"hand_off", "Handoff", FamilyKind::handoff, "", ""}};
  words.levels = {"college"};
  return {text, "chart.csv", words};
}

}  // namespace

TEST_CASE("chart rows: nothing changed, every byte the same") {
  CHECK(rows_of(elsewhere).text() == elsewhere);
  CHECK(rows_of(plain_chart).text() == plain_chart);
  for (const std::string end : {"\n", "\r\n", "\r"}) {
    std::string text = plain_chart;
    for (std::size_t i; (i = text.find('\n')) != std::string::npos;) text.replace(i, 1, "@");
    for (std::size_t i; (i = text.find('@')) != std::string::npos;) text.replace(i, 1, end);
    CHECK(rows_of(text).text() == text);
    CHECK(rows_of(text + end + end).text() == text + end + end);
  }
}

TEST_CASE("chart rows: values are read as charts are") {
  const ChartRows rows = rows_of(elsewhere);
  REQUIRE(rows.size() == 2);
  CHECK(at(rows.values(0), ChartColumn::note) == "two\r\nlines");
  CHECK(at(rows.values(1), ChartColumn::game) == "G1");
  CHECK(rows.snap(0).yards == 8);
  CHECK(rows.snap(1).family == "hand_off");
  CHECK_FALSE(rows.has(ChartColumn::shell));
}

TEST_CASE("chart rows: one value changed changes its bytes alone") {
  ChartRows rows = rows_of(elsewhere);
  Values values = rows.values(1);
  at(values, ChartColumn::yards) = "-2";
  rows.replace(1, rows.changed(1, values));
  std::string wanted = elsewhere;
  wanted.replace(wanted.rfind("3;"), 1, "-2");
  CHECK(rows.text() == wanted);
  CHECK(rows.snap(1).yards == -2);
}

TEST_CASE("chart rows: a row more, and out again") {
  ChartRows rows = rows_of(elsewhere);
  Values values = rows.values(1);
  at(values, ChartColumn::note) = "a; b";
  rows.insert(2, rows.made(2, values));
  CHECK(rows.text() == elsewhere + "\r\nrun;;G1;college;2;2;67;hand off;3;\"a; b\"\r\n");
  rows.erase(2);
  CHECK(rows.text() == elsewhere);
  rows.insert(0, rows.made(0, values));
  CHECK(rows_of(rows.text()).size() == 3);
  rows.erase(0);
  CHECK(rows.text() == elsewhere);
}

TEST_CASE("chart rows: a chart that is begun") {
  ChartRows rows = rows_of(ChartRows::fresh_text());
  CHECK(rows.size() == 0);
  CHECK(rows.has(ChartColumn::start));
  ChartRows bare = rows_of(plain_chart.substr(0, plain_chart.find('\n')));
  const Values values = rows_of(plain_chart).values(0);
  bare.insert(0, bare.made(0, values));
  CHECK(bare.text() == plain_chart);
  CHECK_THROWS_AS(rows_of("game,level\n"), InputError);
  CHECK_THROWS_AS(rows_of(plain_chart + "G1,college,5,10,75,boot,complete,4\n"), InputError);
}

TEST_CASE("chart rows: what the reader has against a row") {
  const ChartRows rows = rows_of(plain_chart);
  Values values = rows.values(0);
  CHECK(rows.read(values).snap);
  at(values, ChartColumn::yards) = "76";
  const auto read = rows.read(values);
  CHECK_FALSE(read.snap);
  REQUIRE(read.faults.size() == 1);
  CHECK(read.faults.front().what == "76 lies beyond the goal line, which is 75 away");
}

TEST_CASE("chart rows: columns for film") {
  const ChartRows rows = rows_of(elsewhere);
  const ChartRows more =
      rows_of(rows.text_with({ChartColumn::clip, ChartColumn::start, ChartColumn::end}));
  CHECK(more.has(ChartColumn::end));
  CHECK(more.size() == 2);
  CHECK(more.values(0)[0] == rows.values(0)[0]);
  CHECK(rows.text_with({ChartColumn::game}) == elsewhere);
}

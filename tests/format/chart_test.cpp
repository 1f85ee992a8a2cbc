#include "../support/message_of.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/format/chart.hpp>

#include <catch2/catch.hpp>

using namespace callfit;
using callfit::testing::message_of;

namespace {

const std::string all_columns =
    "game,level,down,to_go,yards_to_goal,family,result,yards,air_yards,yac,quarter,shell,platform,"
    "pressure,lane,on_time,catchable,evaded,fumble_lost\n";

const ChartWords words{{{"glance", "Glance", FamilyKind::pass, "", ""},
                        {"boot", "Boot", FamilyKind::pass, "", ""},
                        {"draw", "Draw", FamilyKind::qb_run, "", ""}},
                       {"high_school", "college"}};

std::string chart_message(const std::string& text) {
  Findings notices;
  return message_of([&] { parse_chart(text, "c.csv", notices, words); });
}

/// A row under `all_columns` from its first eight fields and the rest.
std::string with_row(const std::string& row) { return chart_message(all_columns + row + "\n"); }

}  // namespace

TEST_CASE("a chart keeps what was written and leaves blanks uncharted") {
  Findings notices;
  const Chart chart = parse_chart(
      "Yards,RESULT,family,\"yards to goal\",to_go,down,level,game,shell,yac,air_yards,pressure,"
      "fumble_lost,note,snap_id,evaded,platform,lane,on_time,catchable,quarter,opponent\n"
      "12,Complete,glance,75,10,1,College,G1,two high,4,8,Y,no,\"quick, then up\",a7,1,pocket,"
      "middle,yes,TRUE,2,Elms\n"
      "-3,run,draw,63,10,1,college,G1,,,,,,,,,,,,,,\n",
      "c.csv", notices, words);
  CHECK(notices.empty());
  CHECK(chart.source == "c.csv");
  REQUIRE(chart.snaps.size() == 2);
  const Snap& first = chart.snaps[0];
  CHECK(first.game == "G1");
  CHECK(first.level == "college");
  CHECK(first.result == Result::complete);
  CHECK(first.yards == 12);
  CHECK(first.shell == Shell::two_high);
  CHECK(first.air_yards == 8);
  CHECK(first.yac == 4);
  CHECK(first.pressure == true);
  CHECK(first.fumble_lost == false);
  CHECK(first.catchable == true);
  CHECK(first.evaded == 1);
  CHECK(first.quarter == 2);
  CHECK(first.opponent == "Elms");
  CHECK(first.note == "quick, then up");
  CHECK(first.snap_id == "a7");
  CHECK(first.line == 2);
  const Snap& second = chart.snaps[1];
  CHECK(second.yards == -3);
  CHECK_FALSE(second.shell);
  CHECK_FALSE(second.yac);
  CHECK_FALSE(second.pressure);
  CHECK_FALSE(second.fumble_lost);
  CHECK(second.line == 3);
}

TEST_CASE("unknown columns are kept out with a notice, empty ones silently") {
  Findings notices;
  parse_chart(
      "game,level,down,to_go,yards_to_goal,family,result,yards,weather,shel,\n"
      "G1,college,1,10,75,draw,run,4,rain,,\n",
      "c.csv", notices);
  REQUIRE(notices.size() == 2);
  CHECK(to_text(notices[0]) ==
        "c.csv:1: notice: weather: a chart has no such column; it is kept out");
  CHECK(to_text(notices[1]) ==
        "c.csv:1: notice: shel: a chart has no such column; it is kept out; did you mean shell?");
}

TEST_CASE("missing and doubled columns are named together") {
  CHECK(chart_message("game,level,down,down,gap,yards_to_goal,families,result,yards\n") ==
        "c.csv:1: down: the column is there twice; keep one of them\n"
        "c.csv:1: to_go: the column is missing; add it\n"
        "c.csv:1: family: the column is missing; rename families if that is it");
}

TEST_CASE("possible rows are accepted") {
  const auto row = GENERATE(values<const char*>({
      "G1,college,1,10,75,glance,complete,75,5,70,,,,,,,,,",      // to the goal line
      "G1,college,4,1,1,draw,run,1,,,,,,,,,,,",                   // goal to go
      "G1,college,2,15,98,glance,sack,-2,,,,,,,,,,,",             // a safety
      "G1,college,2,15,98,glance,sack,0,,,,,,,,,,,",              // back at the line
      "G1,college,1,10,75,glance,incomplete,,20,,,,,,,,,,",       // no yards to fill in
      "G1,college,1,10,75,glance,intercepted,0,20,0,,,,,,,,,",    // nothing after a catch
      "G1,college,1,10,75,glance,complete,3,-5,8,,,,,,,,,",       // caught behind the line
      "G1,college,1,5,5,glance,complete,5,9,0,,,,,,,,,",          // caught in the end zone
      "G1,college,1,10,75,,no_play,,,,,,,,,,,,",                  // false start
      "G1,college,1,10,75,glance,no_play,40,,,,,,,,,,,",          // called back
      "G1,college,1,10,75,glance,sack,-6,,,,,,yes,,no,no,2,yes",  // evaded two, lost the ball
  }));
  CHECK(with_row(row) == "accepted");
}

TEST_CASE("each impossible or unreadable field has its message") {
  struct Case {
    const char* row;
    const char* message;
  };
  const auto [row, message] = GENERATE(values<Case>({
      {"G1,college,0,10,75,glance,incomplete,,,,,,,,,,,,",
       "c.csv:2: down: 0 is not possible; give 1 to 4"},
      {"G1,college,5,10,75,glance,incomplete,,,,,,,,,,,,",
       "c.csv:2: down: 5 is not possible; give 1 to 4"},
      {"G1,college,first,10,75,glance,incomplete,,,,,,,,,,,,",
       "c.csv:2: down: \"first\" is not a whole number; write one such as 7 or -3"},
      {"G1,college,,10,75,glance,incomplete,,,,,,,,,,,,", "c.csv:2: down: is blank; fill it in"},
      {"G1,college,1,0,75,glance,incomplete,,,,,,,,,,,,",
       "c.csv:2: to_go: 0 is not possible; give at least 1 (inches count as 1)"},
      {"G1,college,1,9.5,75,glance,incomplete,,,,,,,,,,,,",
       "c.csv:2: to_go: \"9.5\" is not a whole number; write one such as 7 or -3"},
      {"G1,college,1,10,8,glance,incomplete,,,,,,,,,,,,",
       "c.csv:2: to_go: 10 lies beyond the goal line, which is 8 away; give at most 8 (goal to "
       "go)"},
      {"G1,college,1,10,100,glance,incomplete,,,,,,,,,,,,",
       "c.csv:2: yards_to_goal: 100 is not possible; give 1 to 99"},
      {"G1,college,1,10,0,glance,complete,4,,,,,,,,,,,",
       "c.csv:2: yards_to_goal: 0 is not possible; give 1 to 99"},
      {"G1,college,1,10,40,glance,complete,41,,,,,,,,,,,",
       "c.csv:2: yards: 41 lies beyond the goal line, which is 40 away; give at most 40 (a "
       "touchdown)"},
      {"G1,college,1,10,97,draw,run,-4,,,,,,,,,,,",
       "c.csv:2: yards: -4 lies behind the own goal line; give at least -3 (a safety)"},
      {"G1,college,1,10,75,glance,sack,3,,,,,,,,,,,",
       "c.csv:2: yards: a sack cannot gain 3; give 0 or a loss, or chart a scramble"},
      {"G1,college,1,10,75,glance,complete,,,,,,,,,,,,",
       "c.csv:2: yards: a play with result complete needs its yards; fill in the gain or loss (0 "
       "for none)"},
      {"G1,college,1,10,75,draw,run,,,,,,,,,,,,",
       "c.csv:2: yards: a play with result run needs its yards; fill in the gain or loss (0 for "
       "none)"},
      {"G1,college,1,10,75,glance,incomplete,12,,,,,,,,,,,",
       "c.csv:2: yards: 12 yards on an incomplete throw; give 0, or chart where the ball landed as "
       "air_yards"},
      {"G1,college,1,10,75,glance,intercepted,-20,,,,,,,,,,,",
       "c.csv:2: yards: -20 yards on an intercepted throw; give 0: the return is not the offence's "
       "gain"},
      {"G1,college,1,10,75,glance,complete,6,,9,,,,,,,,,",
       "c.csv:2: yac: 9 after the catch, but the play gained 6; give at most 6, or chart air_yards "
       "below 0 for a catch behind the line"},
      {"G1,college,1,10,75,glance,complete,12,8,9,,,,,,,,,",
       "c.csv:2: yac: air_yards 8 and yac 9 do not make yards 12; give yac 4 or mend one of the "
       "others"},
      {"G1,college,1,10,75,glance,incomplete,,8,3,,,,,,,,,",
       "c.csv:2: yac: yards after the catch on an incomplete throw; leave it blank"},
      {"G1,college,1,10,75,draw,run,4,,3,,,,,,,,,",
       "c.csv:2: yac: yards after the catch on a run; leave it blank"},
      {"G1,college,1,8,8,glance,complete,6,9,,,,,,,,,,",
       "c.csv:2: air_yards: caught in the end zone, yet no touchdown; give yards 8 or mend "
       "air_yards"},
      {"G1,college,1,8,8,glance,complete,8,9,2,,,,,,,,,",
       "c.csv:2: air_yards: caught in the end zone, yet yards after the catch; give yac 0"},
      {"G1,college,1,8,8,glance,complete,8,19,,,,,,,,,,",
       "c.csv:2: air_yards: caught beyond the end line, 18 yards away; give at most 18"},
      {"G1,college,1,10,75,glance,incomplete,,95,,,,,,,,,,",
       "c.csv:2: air_yards: 95 is not possible; give -35 to 90"},
      {"G1,college,1,10,75,draw,run,4,7,,,,,,,,,,",
       "c.csv:2: air_yards: no ball was thrown on a run; leave it blank"},
      {"G1,college,1,10,75,glance,sack,-4,,,,,,,,yes,,,",
       "c.csv:2: on_time: no ball was thrown on a sack; leave it blank"},
      {"G1,college,1,10,75,glance,scramble,4,,,,,,,,,yes,,",
       "c.csv:2: catchable: no ball was thrown on a scramble; leave it blank"},
      {"G1,college,1,10,75,glance,complete,4,,,0,,,,,,,,",
       "c.csv:2: quarter: 0 is not possible; give 1 to 9"},
      {"G1,college,1,10,75,glance,complete,4,,,,,,,,,,12,",
       "c.csv:2: evaded: 12 is not possible; give 0 to 11"},
      {"G1,college,1,10,75,glance,complete,4,,,,,,,,,,-1,",
       "c.csv:2: evaded: -1 is not possible; give 0 to 11"},
      {"G1,college,1,10,75,glance,incomplete,,,,,,,,,,,,yes",
       "c.csv:2: fumble_lost: the offence cannot lose a fumble on an incomplete throw; give no"},
      {"G1,college,1,10,75,glance,compete,4,,,,,,,,,,,",
       "c.csv:2: result: unknown word \"compete\"; did you mean complete?"},
      {"G1,college,1,10,75,glance,touchdown,4,,,,,,,,,,,",
       "c.csv:2: result: unknown word \"touchdown\"; use complete, incomplete, intercepted, sack, "
       "scramble, run or no_play"},
      {"G1,college,1,10,75,glance,complete,4,,,,cover_2,,,,,,,",
       "c.csv:2: shell: unknown word \"cover_2\"; use one_high, two_high or none_high"},
      {"G1,college,1,10,75,glance,complete,4,,,,,poket,,,,,,",
       "c.csv:2: platform: unknown word \"poket\"; did you mean pocket?"},
      {"G1,college,1,10,75,glance,complete,4,,,,,,maybe,,,,,",
       "c.csv:2: pressure: \"maybe\" is neither yes nor no; write yes, no or nothing"},
      {"G1,college,1,10,75,glance,complete,4,,,,,,,centre,,,,",
       "c.csv:2: lane: unknown word \"centre\"; use left, middle or right"},
      {"G1,collage,1,10,75,glance,complete,4,,,,,,,,,,,",
       "c.csv:2: level: unknown level \"collage\"; did you mean college?"},
      {"G1,college,1,10,75,glanc,complete,4,,,,,,,,,,,",
       "c.csv:2: family: unknown family \"glanc\"; did you mean glance?"},
      {"G1,college,1,10,75,,complete,4,,,,,,,,,,,", "c.csv:2: family: is blank; fill it in"},
      {",college,1,10,75,glance,complete,4,,,,,,,,,,,", "c.csv:2: game: is blank; fill it in"},
      {"G1,college,1,10,75,glance,run,4,,,,,,,,,,,",
       "c.csv:2: result: a run of glance, which is a pass; chart a scramble, or the run family "
       "that "
       "was called"},
      {"G1,college,1,10,75,draw,scramble,4,,,,,,,,,,,",
       "c.csv:2: result: scramble on draw, which is a run; chart a run, or the pass family that "
       "was "
       "called"},
      {"G1,college,1,10,99999999999999999999,glance,complete,4,,,,,,,,,,,",
       "c.csv:2: yards_to_goal: \"99999999999999999999\" is not a whole number; write one such as "
       "7 "
       "or -3"},
  }));
  CHECK(with_row(row) == message);
}

TEST_CASE("a chart without snaps is refused") {
  CHECK(with_row("") == "c.csv:1: no snaps below the column names; add a row a snap");
}

TEST_CASE("all faults of a file are told in one go, capped and counted") {
  std::string text = all_columns;
  for (int i = 0; i < 30; ++i)  // all different
    text += "G1,college," + std::to_string(5 + i) + ",10,75,glance,sack," + std::to_string(1 + i) +
            ",,,,,,,,,,,\n";
  Findings notices;
  try {
    parse_chart(text, "c.csv", notices);
    FAIL("accepted");
  } catch (const InputError& error) {
    CHECK(error.findings().size() == 60);
    CHECK(std::string(error.what()).ends_with("\n... and 10 more"));
  }
}

TEST_CASE("a field that could not be read does not cause further findings") {
  CHECK(with_row("G1,college,1,10,x,glance,complete,40,,,,,,,,,,,") ==
        "c.csv:2: yards_to_goal: \"x\" is not a whole number; write one such as 7 or -3");
}

TEST_CASE("a chart that comes in blocks is the same chart") {
  const std::string text = all_columns +
                           "G1,college,1,10,75,glance,complete,12,8,4,1,two high,,Y,,,,,\r\n"
                           "\"G,1\",College,2,10,75,draw,run,-3,,,,,,,,,,,\r\n";
  Findings notices;
  const Chart whole = parse_chart(text, "c.csv", notices, words);
  for (std::size_t block = 1; block < text.size(); block += 7) {
    ChartReader reader("c.csv", words);
    for (std::size_t at = 0; at < text.size(); at += block) reader.feed(text.substr(at, block));
    const Chart chart = reader.finish(notices);
    REQUIRE(chart.snaps.size() == whole.snaps.size());
    CHECK(chart.snaps[1].game == "G,1");
    CHECK(chart.snaps[1].line == 3);
    CHECK(chart.snaps[0].shell == Shell::two_high);
  }
}

TEST_CASE("a million snaps fit into little memory") {
  CHECK(sizeof(Snap) <= 152);  // 10^6 of them: 152 MB

  Findings notices;
  const Chart chart = parse_chart(all_columns +
                                      "G1,college,1,10,75,glance,complete,12,,,,,,,,,,,\n"
                                      "G1,college,2,10,63,glance,incomplete,,,,,,,,,,,,\n",
                                  "c.csv", notices, words);
  // Words that stand in many rows are kept once.
  CHECK(chart.snaps[0].game.view().data() == chart.snaps[1].game.view().data());
  CHECK(chart.snaps[0].family.view().data() == chart.snaps[1].family.view().data());
}

TEST_CASE("season, team and where in which clip are kept with the snap") {
  const std::string head = "game,level,down,to_go,yards_to_goal,family,result,yards,";
  const std::string row = "G1,college,1,10,75,glance,complete,12,";
  Findings notices;
  const Chart chart =
      parse_chart(head + "Season,team,clip,start,end\n" + row + "2025,North,g1.mp4,1:02.5,63\n" +
                      row + "2025,North,,,\n" + row + ",,,1:02:03,\n",
                  "c.csv", notices, words);
  CHECK(notices.empty());
  CHECK(chart.snaps[0].season == "2025");
  CHECK(chart.snaps[0].team == "North");
  CHECK(chart.snaps[0].clip == "g1.mp4");
  CHECK(chart.snaps[0].start == 62.5F);
  CHECK(chart.snaps[0].end == 63.0F);
  CHECK(chart.snaps[1].season.view().data() == chart.snaps[0].season.view().data());
  CHECK_FALSE(chart.snaps[1].start);
  CHECK(chart.snaps[2].start == 3723.0F);

  const auto fault = [&](const std::string& times) {
    return chart_message(head + "start,end\n" + row + times + '\n');
  };
  for (const char* times : {"1:60,", "-3,", "1.5:20,", "1:2:3:4,", "soon,", "1e3,", ":5,", "5:,"})
    CHECK(fault(times).ends_with(
        "is no time in a clip; write seconds or minutes:seconds, such as 83.5 or 1:23"));
  CHECK(fault("10,9.5") == "c.csv:2: end: the snap ends before it starts; mend start or end");
}

TEST_CASE("a chart longer than a block is whole and in order") {
  std::string text = all_columns;
  constexpr std::size_t rows = 10000;
  for (std::size_t i = 0; i < rows; ++i)
    text += "G1,college,1,10,75,glance,complete," + std::to_string(i % 70) + ",,,,,,,,,,,\n";
  Findings notices;
  const Chart chart = parse_chart(text, "c.csv", notices, words);
  REQUIRE(chart.snaps.size() == rows);
  CHECK(chart.snaps.capacity() == rows);
  for (std::size_t i = 0; i < rows; ++i) CHECK(chart.snaps[i].yards == static_cast<int>(i % 70));
}

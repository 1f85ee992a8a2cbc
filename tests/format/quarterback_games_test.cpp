#include "../support/message_of.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/format/quarterback_games.hpp>

#include <catch2/catch.hpp>

#include <map>
#include <string>
#include <vector>

using namespace callfit;
using callfit::testing::message_of;

namespace {

/// One game as a row, by column.
std::map<std::string, std::string> a_game() {
  std::map<std::string, std::string> game{{"quarterback", "7"},
                                          {"season", "2016"},
                                          {"week", "1"},
                                          {"game_order", "1"},
                                          {"game", "12"},
                                          {"dropbacks", "30"},
                                          {"attempts", "26"},
                                          {"completions", "17"},
                                          {"interceptions", "1"},
                                          {"sacks", "3"},
                                          {"sack_fumbles", "1"},
                                          {"scrambles", "1"},
                                          {"scrambles_10plus", "0"},
                                          {"scramble_yards_sum", "-2"}};
  for (const std::string depth : {"behind_line", "quick", "intermediate", "deep"}) {
    for (const std::string lane : {"left", "middle", "right"})
      for (const auto& [what, n] : {std::pair("_attempts", "2"),
                                    {"_completions", "1"},
                                    {"_yac10", "1"},
                                    {"_yac_sum", "11"}})
        game[depth + "_" + lane + what] = n;
    game[depth + "_lane_unknown_attempts"] = "0";
    game[depth + "_lane_unknown_completions"] = "0";
  }
  game["quick_lane_unknown_attempts"] = "1";
  game["quick_lane_unknown_completions"] = "1";
  return game;
}

std::string table(const std::vector<std::map<std::string, std::string>>& games) {
  std::string text;
  for (const auto& [name, value] : games.front()) text += (text.empty() ? "" : ",") + name;
  for (const auto& game : games) {
    std::string row;
    for (const auto& [name, value] : game) row += (row.empty() ? "" : ",") + value;
    text += "\n" + row;
  }
  return text + "\n";
}

std::string games_message(const std::string& text) {
  return message_of([&] { parse_quarterback_games(text, "g.csv"); });
}

std::string message_with(const std::string& column, const std::string& value) {
  auto game = a_game();
  game[column] = value;
  return games_message(table({game}));
}

}  // namespace

TEST_CASE("counts of a game add up over lanes") {
  const auto games = parse_quarterback_games(table({a_game()}), "g.csv");
  REQUIRE(games.size() == 1);
  const auto counts = [&](GameRate rate) {
    return games[0].counts[static_cast<std::size_t>(rate)];
  };
  CHECK(games[0].season == 2016);
  CHECK(counts(GameRate::completion_quick).made == 4);
  CHECK(counts(GameRate::completion_quick).of == 7);
  CHECK(counts(GameRate::completion_deep).of == 6);
  CHECK(counts(GameRate::yac10_short).made == 6);
  CHECK(counts(GameRate::yac10_short).of == 6);
  CHECK(counts(GameRate::yac10_intermediate).of == 3);
  CHECK(counts(GameRate::interception).of == 26);
  CHECK(counts(GameRate::sack).of == 30);
  CHECK(counts(GameRate::sack_fumble).of == 3);
  CHECK(games[0].after_catch[1].yards == 33);
  CHECK(games[0].after_catch[1].times == 3);
  CHECK(games[0].scrambles.yards == -2);
  CHECK(games[0].scrambles.times == 1);
}

TEST_CASE("games that cannot be are told by file, row and column") {
  CHECK_THAT(message_with("completions", "27"),
             Catch::Contains("g.csv:2: completions: 27 of 26 attempts cannot be"));
  CHECK_THAT(message_with("deep_left_completions", "3"),
             Catch::Contains("g.csv:2: deep_left_completions: 3 of 2"));
  CHECK_THAT(message_with("quick_left_yac10", "2"), Catch::Contains("2 of 1"));
  CHECK_THAT(message_with("interceptions", "10"),
             Catch::Contains("more completions and interceptions than attempts"));
  CHECK_THAT(message_with("dropbacks", "29"),
             Catch::Contains("fewer than attempts, sacks and scrambles together"));
  CHECK_THAT(message_with("quick_left_attempts", "9"),
             Catch::Contains("fewer than those by depth"));
  CHECK_THAT(message_with("sacks", "-1"), Catch::Contains("\"-1\" cannot be"));
  CHECK_THAT(message_with("sacks", "1.5"), Catch::Contains("\"1.5\" cannot be"));
  CHECK_THAT(message_with("quarterback", ""), Catch::Contains("quarterback: is blank"));
  CHECK(message_with("sacks", "3.0") == "accepted");
  CHECK_THAT(games_message(table({a_game(), a_game()})),
             Catch::Contains("g.csv:3: game: quarterback 7 has game 12 already in line 2"));
  auto other = a_game();
  other["quarterback"] = "8";
  CHECK(games_message(table({a_game(), other})) == "accepted");
  auto lacking = a_game();
  lacking.erase("sacks");
  lacking.erase("deep_left_yac10");
  CHECK_THAT(games_message(table({lacking})),
             Catch::Contains("g.csv:1: no column sacks, deep_left_yac10"));
  CHECK_THAT(games_message("quarterback\n"), Catch::Contains("no column season"));
}

namespace {

std::string seasons(const std::string& row) {
  return "quarterback,season,drives,points,start_q13_mean,handoffs,handoff_success,handoff_yards,"
         "new_team\n" +
         row + "\n";
}

std::string seasons_message(const std::string& row) {
  return message_of([&] { parse_quarterback_seasons(seasons(row), "s.csv"); });
}

}  // namespace

TEST_CASE("seasons are read, and told by row and column where they cannot be") {
  const auto read = parse_quarterback_seasons(
      seasons("7,2016,150,310,71.5,300,120,1250,0\n8,2016,3,0,,9,1,-4,"), "s.csv");
  REQUIRE(read.size() == 2);
  CHECK(read[0].drives == 150);
  CHECK(read[0].start == 71.5);
  CHECK(read[0].handoff_success.made == 120);
  CHECK(read[0].new_team == false);
  CHECK(read[1].handoff_yards == -4);
  CHECK_FALSE(read[1].start);
  CHECK_FALSE(read[1].new_team);
  CHECK_THAT(seasons_message("7,2016,150,310,170,300,120,1250,0"),
             Catch::Contains("s.csv:2: start_q13_mean: \"170\" cannot be"));
  CHECK_THAT(seasons_message("7,2016,150,310,70,300,301,1250,0"),
             Catch::Contains("s.csv:2: handoff_success: more than handoffs"));
  CHECK_THAT(seasons_message("7,2016,150,310,70,300,120,1250,2"),
             Catch::Contains("s.csv:2: new_team: \"2\" cannot be"));
  CHECK_THAT(seasons_message("7,2016,150,310,70,300,120,1250,0\n7,2016,1,0,,0,0,0,0"),
             Catch::Contains("s.csv:3: season: quarterback 7 has it already in line 2"));
  CHECK_THAT(seasons_message("7,2016,,310,70,300,120,1250,0"),
             Catch::Contains("s.csv:2: drives: is blank"));
}

// What opponents allowed to others, from CSV.
#include "../support/message_of.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/format/opponents.hpp>

#include <catch2/catch.hpp>

#include <string>

using namespace callfit;
using callfit::testing::message_of;

namespace {

std::string opponents_message(const std::string& text) {
  return message_of([&] { parse_opponents(text, "o.csv"); });
}

const std::string counts = "opponent,level,attempts,completions,interceptions,sacks,scrambles\n";

}  // namespace

TEST_CASE("counts and places of opponents are read") {
  const auto records = parse_opponents(
      "Opponent,level,games,attempts,completions,sacks,better than,give_or_take\n"
      "Quillhaven,College,11,350,200,30,,\nFarrow,,,,,,0.8,0.1\nTarn,,,,,,0.5,\n",
      "o.csv");
  REQUIRE(records.size() == 3);
  CHECK(records[0].name == "Quillhaven");
  CHECK(records[0].level == "college");
  CHECK(records[0].games == 11);
  CHECK(records[0].allowed[static_cast<std::size_t>(BoxRate::completion)]->made == 200);
  CHECK(records[0].allowed[static_cast<std::size_t>(BoxRate::completion)]->of == 350);
  CHECK(records[0].allowed[static_cast<std::size_t>(BoxRate::sack)]->of == 380);
  CHECK_FALSE(records[0].allowed[static_cast<std::size_t>(BoxRate::interception)]);
  CHECK(records[1].better_than == 0.8);
  CHECK(records[1].give_or_take == 0.1);
  CHECK(records[2].give_or_take == 0.15);
}

TEST_CASE("what is wrong with opponents is told by line and column") {
  CHECK(opponents_message(counts + "Q,,100,60,2,,\nQ,,90,50,2,,\n") ==
        "o.csv:3: opponent: \"Q\" stands in line 2 already; keep one of them");
  CHECK(opponents_message(counts + "Q,,100,99,2,,\n") ==
        "o.csv:2: attempts: fewer than completions and interceptions; mend one of them");
  CHECK(opponents_message(counts + "Q,,,60,2,,\n") ==
        "o.csv:2: attempts: is blank beside other counts; fill it in");
  CHECK(opponents_message(counts + "Q,,many,,,,\n")
            .starts_with("o.csv:2: attempts: \"many\" cannot be; give"));
  CHECK(opponents_message(counts + "Q,,,,,,\n") ==
        "o.csv:2: opponent: has both counts and better_than, or neither; give one of them");
  CHECK(opponents_message(counts + ",,100,60,2,,\n") == "o.csv:2: opponent: is blank; fill it in");
  CHECK(opponents_message("opponent,better_than\nQ,1\n")
            .starts_with("o.csv:2: better_than: \"1\" cannot be"));
  CHECK(opponents_message("opponent,better_than,give_or_take\nQ,0.5,nan\n")
            .starts_with("o.csv:2: give_or_take: \"nan\" cannot be"));
  CHECK(opponents_message("opponent,colour\nQ,red\n")
            .starts_with("o.csv:1: colour: no column of opponents"));
  CHECK(opponents_message("level\ncollege\n")
            .starts_with("o.csv:1: opponent: the column is missing"));
  CHECK(opponents_message("opponent,better_than\n") ==
        "o.csv: holds no opponent; give a row for each");
}

// Season totals, from CSV.
#include "../support/message_of.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/format/season_totals.hpp>

#include <catch2/catch.hpp>

#include <string>

using namespace callfit;
using callfit::testing::message_of;

namespace {

std::string totals_message(const std::string& text) {
  return message_of([&] { parse_season_totals(text, "s.csv"); });
}

const std::string head = "season,level,attempts,completions,interceptions\n";

}  // namespace

TEST_CASE("season totals are read, and what is blank is not known") {
  const SeasonTable table = parse_season_totals(
      "Season,Team,Level,Games,Attempts,Completions,Sacks\n"
      "2025,North,High School,11,310,190,20\n2024,,college,,100,,\n",
      "s.csv");
  REQUIRE(table.seasons.size() == 2);
  const SeasonTotals& first = table.seasons[0];
  CHECK(first.season == "2025");
  CHECK(first.team == "North");
  CHECK(first.level == "high_school");
  CHECK(first.games == 11);
  CHECK(first.totals[static_cast<std::size_t>(BoxRate::completion)]->made == 190);
  CHECK(first.totals[static_cast<std::size_t>(BoxRate::completion)]->of == 310);
  CHECK(first.totals[static_cast<std::size_t>(BoxRate::sack)]->of == 330);
  CHECK_FALSE(table.seasons[1].totals[static_cast<std::size_t>(BoxRate::completion)]);
  CHECK(table.source == "s.csv");
  CHECK(table.lines == std::vector<std::size_t>{2, 3});
}

TEST_CASE("what is wrong with season totals is told by line and column") {
  CHECK(totals_message(head + "2025,college,100,99,2\n") ==
        "s.csv:2: attempts: fewer than completions and interceptions; mend one of them");
  CHECK(totals_message(head + "2025,college,,60,2\n") == "s.csv:2: attempts: is blank; fill it in");
  CHECK(totals_message(head + ",college,100,60,2\n") == "s.csv:2: season: is blank; fill it in");
  CHECK(totals_message(head + "2025,college,many,60,2\n")
            .starts_with("s.csv:2: attempts: \"many\" cannot be; give a count"));
  CHECK(totals_message("season,attempts\n2025,3\n")
            .starts_with("s.csv:1: level: the column is missing"));
  CHECK(totals_message("season,level,attempts,colour\n2025,college,3,red\n")
            .starts_with("s.csv:1: colour: no column of seasons"));
  CHECK(totals_message(head) == "s.csv: holds no season; give a row for each");
}

#include "../support/message_of.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/format/drives.hpp>

#include <catch2/catch.hpp>

using namespace callfit;
using callfit::testing::message_of;

namespace {

const std::string header =
    "season,game,quarter,start_yards_to_goal,plays,result,points,kneel_only,side\n";

std::vector<RealDrive> read(const std::string& text) {
  DrivesReader reader("d.csv");
  reader.feed(text);
  return reader.finish();
}

std::string drives_message(const std::string& text) {
  return message_of([&] { read(text); });
}

}  // namespace

TEST_CASE("drives are read, whole numbers with a point too, other columns kept out") {
  const auto drives =
      read(header + "2025,2,1,75,11,td,6.97,0,home\n2025.0,2,3.0,,3.0,end_half,0,1,\n");
  REQUIRE(drives.size() == 2);
  CHECK(drives[0].game == drives[1].game);
  CHECK(drives[0].start_yards_to_goal == 75);
  CHECK(drives[0].points == Approx(6.97));
  CHECK(drives[0].result == DriveResult::touchdown);
  CHECK(drives[1].quarter == 3);
  CHECK_FALSE(drives[1].start_yards_to_goal);
  CHECK(drives[1].kneel_only);
  CHECK(drives[1].result == DriveResult::end_of_half);
}

TEST_CASE("games of two seasons are two games though their numbers are one") {
  const auto drives = read(header + "2024,2,1,75,3,punt,0,0,\n2025,2,1,75,3,punt,0,0,\n");
  CHECK(drives[0].game != drives[1].game);
}

TEST_CASE("what is wrong with a table of drives is named with its row and column") {
  struct Case {
    std::string text, told;
  };
  const std::vector<Case> cases{
      {"season,game,quarter,start_yards_to_goal,plays,results,points,kneel_only\n",
       "d.csv:1: no column result; add what is missing, rename results if that is result"},
      {"season,game\n1,2\n",
       "d.csv:1: no column quarter, start_yards_to_goal, plays, result, points, kneel_only; add"},
      {header + "2025,2,1,75,11,touchdown,7,0,\n",
       "d.csv:2: result: unknown result \"touchdown\"; use td, fg_made"},
      {header + "2025,2,1,75,11,,7,0,\n", "d.csv:2: result: unknown result \"\""},
      {header + "2025,2,1,75,11,td,7,0,\n2025,2,1,0,3,punt,0,0,\n",
       "d.csv:3: start_yards_to_goal: \"0\" cannot be; give 1 to 99"},
      {header + "2025,2,1,75,3.5,punt,0,0,\n", "d.csv:2: plays: \"3.5\" cannot be"},
      {header + "2025,2,1,75,3,punt,nan,0,\n", "d.csv:2: points: \"nan\" cannot be"},
      {header + "2025,2,1,75,3,punt,1e999,0,\n", "d.csv:2: points: \"1e999\" cannot be"},
      {header + "2025,2,,75,3,punt,0,0,\n", "d.csv:2: quarter: is blank; give 1 to 4"},
      {header + "2025,,1,75,3,punt,0,0,\n", "d.csv:2: game: is blank"},
      {header + "2025,2,1,75,3,punt,0,maybe,\n", "d.csv:2: kneel_only: \"maybe\" cannot be"},
      {header + "2025,2,1,75\n", "d.csv:2: 4 fields where the header has 9"},
      {"", "d.csv: the file is empty"}};
  for (const Case& entry : cases) {
    CAPTURE(entry.text);
    CHECK_THAT(drives_message(entry.text), Catch::Contains(entry.told));
  }
}

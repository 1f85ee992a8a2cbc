// What is proposed after a row, and what a corrected spot makes of it.
#include <callfit/charting/following.hpp>

#include <catch2/catch.hpp>

using namespace callfit;
using namespace callfit::charting;

namespace {

Snap snap(int down, int to_go, int yards_to_goal, Result result, int yards) {
  Snap one;
  one.game = "G";
  one.down = down;
  one.to_go = to_go;
  one.yards_to_goal = yards_to_goal;
  one.result = result;
  one.yards = yards;
  return one;
}

std::string told(const std::optional<Following>& next) {
  if (!next) return "over";
  return std::to_string(next->place.down) + "-" + std::to_string(next->place.to_go) + "-" +
         std::to_string(next->place.yards_to_goal);
}

std::string told(const DriveState& state) { return told(Following{state, false}); }

}  // namespace

TEST_CASE("following: what comes after a row") {  // rules of downs: from memory
  CHECK(told(following(snap(1, 10, 75, Result::run, 4))) == "2-6-71");
  CHECK(told(following(snap(3, 6, 71, Result::complete, 6))) == "1-10-65");
  CHECK(told(following(snap(3, 6, 71, Result::incomplete, 0))) == "4-6-71");
  CHECK(told(following(snap(4, 6, 71, Result::incomplete, 0))) == "over");
  CHECK(told(following(snap(2, 6, 71, Result::intercepted, 0))) == "over");
  CHECK(told(following(snap(2, 6, 12, Result::run, 12))) == "over");
  CHECK(told(following(snap(2, 6, 12, Result::run, 8))) == "1-4-4");
  CHECK(told(following(snap(2, 8, 71, Result::no_play, 0))) == "2-8-71");
  Snap lost = snap(2, 6, 71, Result::run, 3);
  lost.fumble_lost = true;
  CHECK(told(following(lost)) == "over");
}

TEST_CASE("following: a corrected spot keeps the line within a foul's reach") {
  const auto false_start = following(snap(1, 10, 75, Result::no_play, 0));
  CHECK(told(moved_to(false_start, 80)) == "1-15-80");
  const auto holding = following(snap(2, 6, 71, Result::no_play, 0));
  CHECK(told(moved_to(holding, 81)) == "2-16-81");
  CHECK(told(moved_to(holding, 65)) == "1-10-65");  // beyond the line
  const auto punt = following(snap(3, 6, 71, Result::incomplete, 0));
  CHECK(told(moved_to(punt, 40)) == "1-10-40");
  const auto first = following(snap(1, 10, 75, Result::run, 12));
  CHECK(told(moved_to(first, 62)) == "1-10-62");  // the gain was rounded
  CHECK(told(moved_to(std::nullopt, 4)) == "1-4-4");
}

TEST_CASE("following: another drive") {
  const Snap third = snap(3, 6, 71, Result::incomplete, 0);
  CHECK(is_new_drive(third, snap(1, 10, 30, Result::run, 1)));
  CHECK_FALSE(is_new_drive(third, snap(4, 6, 71, Result::run, 1)));
  CHECK_FALSE(is_new_drive(snap(1, 10, 75, Result::run, 12), snap(1, 10, 63, Result::run, 1)));
  CHECK(is_new_drive(snap(1, 10, 75, Result::intercepted, 0), snap(1, 10, 75, Result::run, 1)));
  Snap other = snap(2, 6, 71, Result::run, 1);
  other.game = "H";
  CHECK(is_new_drive(snap(1, 10, 75, Result::run, 4), other));
}

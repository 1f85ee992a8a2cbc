// What a charted snap leads to is what it leads to in a drive that is played out.
#include <callfit/drive/after_snap.hpp>
#include <drive/series_line.hpp>

#include <catch2/catch.hpp>

using namespace callfit;

namespace {

DriveState state(int down, int to_go, int yards_to_goal) { return {down, to_go, yards_to_goal}; }

bool same(const DriveState& a, const DriveState& b) {
  return a.down == b.down && a.to_go == b.to_go && a.yards_to_goal == b.yards_to_goal;
}

// The place that the sampler goes to after a gain that stays on the field.
std::size_t place_of_sampler(const DriveState& from, int yards) {
  drive::SeriesLine line(from.down, from.yards_to_goal - from.to_go);
  const auto own = static_cast<std::uint32_t>(drive::field_length - from.yards_to_goal + yards);
  const std::uint32_t fresh = own > line.last_short() ? 1 : 0;
  line.next_down_if(1);
  line.become_if(fresh, drive::SeriesLine::fresh_at(own));
  return line.place(own);
}

}  // namespace

TEST_CASE("after a snap: every state and gain as the sampler moves it") {
  std::size_t on_the_field = 0;
  for (int down = 1; down <= 4; ++down)
    for (int spot = 1; spot <= 99; ++spot)
      for (int to_go = 1; to_go <= spot; ++to_go)
        for (int yards = spot - 110; yards <= spot + 10; ++yards) {
          const DriveState from = state(down, to_go, spot);
          const AfterSnap after = after_snap(from, yards);
          if (yards >= spot) {
            if (after.ended != DriveResult::touchdown) FAIL("no touchdown");
          } else if (spot - yards >= 100) {
            if (after.ended != DriveResult::safety) FAIL("no safety");
          } else if (down == 4 && yards < to_go) {
            if (after.ended != DriveResult::downs) FAIL("not lost on downs");
          } else {
            ++on_the_field;
            if (after.ended || drive::state_index(after.next) != place_of_sampler(from, yards))
              FAIL("goes elsewhere from " << down << " and " << to_go << " at " << spot << " with "
                                          << yards);
            if (after.is_first_down != (yards >= to_go)) FAIL("another first down");
          }
        }
  CHECK(on_the_field > 1'000'000);
}

TEST_CASE("after a snap: what the rules of the game say") {  // downs and series: from memory
  CHECK(same(after_snap(state(1, 10, 75), 4).next, state(2, 6, 71)));
  CHECK(same(after_snap(state(2, 6, 71), -3).next, state(3, 9, 74)));
  CHECK(same(after_snap(state(3, 9, 74), 9).next, state(1, 10, 65)));
  CHECK(after_snap(state(3, 9, 74), 9).is_first_down);
  CHECK(same(after_snap(state(3, 2, 9), 3).next, state(1, 6, 6)));  // goal to go
  CHECK(after_snap(state(1, 6, 6), 6).ended == DriveResult::touchdown);
  CHECK(after_snap(state(4, 1, 40), 0).ended == DriveResult::downs);
  CHECK(after_snap(state(2, 12, 98), -2).ended == DriveResult::safety);
}

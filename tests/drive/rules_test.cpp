// Field constants, penalties and takeovers against the rule books: the Official Playing Rules of
// the National Football League as of 2018, and the NCAA's Football Rules. Neither is in the tree;
// values and numbers of rules are from memory.
#include "fixture.hpp"

#include <callfit/files/files.hpp>
#include <callfit/fit/fit.hpp>
#include <catch2/catch.hpp>
#include <drive/components.hpp>
#include <drive/table.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

using namespace callfit;
using drive::Takeover;

namespace {

double total(const Takeover& where) { return std::accumulate(where.begin(), where.end(), 0.0); }

// The only move of a single certain penalty at a spot: the offence's own yard line.
int moved_to(const Penalty& penalty, int yards_to_goal) {
  const drive::PenaltyMoves moves = drive::penalty_moves({penalty}, {0}, yards_to_goal);
  REQUIRE(moves.total == 1);
  for (const auto* list : {&moves.replay, &moves.next_down, &moves.first_down})
    if (!list->empty()) return list->front().own_yard;
  return 0;
}

Penalty certain(Side side, int yards) {
  Penalty penalty;
  penalty.side = side;
  penalty.probability = 1;
  penalty.yards = {yards, {1}};
  return penalty;
}

// Gains short of the goal line from the spot: depths up to the back line, scaled up to 1, plus
// yards after the catch; a depth in the end zone scores, and of gains that just reach the goal line
// the share `spotted` is spotted a yard short of it.
std::vector<double> near_goal(const YardPmf& depth, const YardPmf& after, int spot, int first,
                              double spotted) {
  const int longest = std::min(spot + 9, depth.last());
  double reached = 0;
  for (int d = depth.first; d <= longest; ++d) reached += depth.at(d);
  std::vector<double> out(static_cast<std::size_t>(spot - first), 0.0);
  for (int d = depth.first; d < spot && d <= longest; ++d)
    for (int y = after.first; y <= after.last() && d + y <= spot; ++y) {
      const bool short_of_goal = d + y < spot;
      out[static_cast<std::size_t>((short_of_goal ? d + y : spot - 1) - first)] +=
          depth.at(d) / reached * after.at(y) * (short_of_goal ? 1 : spotted);
    }
  return out;
}

}  // namespace

// Shipped settings have yards after the catch down to -13: deep throws that nobody could have
// caught must not come back into the field.
TEST_CASE("near the goal no throw beyond the back line counts") {
  const Setting setting = Files().setting(CALLFIT_SOURCE_DIR "/settings/college.json");
  const Scheme scheme = Files().scheme(CALLFIT_SOURCE_DIR "/schemes/balanced.json");
  const BoundScheme bound = bind_scheme(scheme, setting);
  const Player player = average_player(setting);
  const DriveModel model = compile_drives(player, scheme, bound.setting_family, setting,
                                          {std::vector<double>(100, 0.0), 0, 0, 0});
  const drive::Plan& plan = *model.table().plan;
  const drive::Components components(plan, player, plan.called);
  std::vector<double> pool;
  double worst = 0;
  int checked = 0;
  for (std::size_t c = 0; c < plan.components.size(); ++c) {
    const drive::Component& parts = plan.components[c];
    if (!parts.is_catch() || components.gains(c).p.empty()) continue;
    for (const int spot : {3, 8, 11, 15, 25}) {
      if (parts.top < spot) continue;  // asked for nearer the goal only
      const YardPmf& open = components.gains(c);
      std::vector<double> out(static_cast<std::size_t>(spot - plan.first_gain), 0.0);
      for (int g = open.first; g < std::min(spot, open.last() + 1); ++g)
        out[static_cast<std::size_t>(g - plan.first_gain)] = open.at(g);
      const drive::Components::Change change = components.change_near_goal(c, spot, pool);
      if (!change.catchable) continue;
      for (std::size_t i = 0; i < change.count; ++i)
        out[static_cast<std::size_t>(change.first - plan.first_gain) + i] += pool[change.start + i];
      const auto expected = near_goal(
          components.shifted_gain(parts.gain), components.shifted_gain(parts.yac), spot,
          plan.first_gain, spot <= drive::goal_spotting_from ? setting.spotted_at_goal : 0);
      for (std::size_t i = 0; i < out.size(); ++i)
        worst = std::max(worst, std::abs(out[i] - expected[i]));
      ++checked;
    }
  }
  CHECK(checked > 100);
  CHECK(worst < 1e-13);
}

// The field is 100 yards between goal lines with end zones of 10 yards (NFL rule 1-1, NCAA 1-2-1);
// a series has four downs to gain ten yards or reach the goal (NFL 7-3, NCAA 5-1-1); a touchdown
// scores 6, a field goal 3, a safety 2 (NFL 11-1-2, NCAA 8-1-1).
TEST_CASE("the field and the downs are those of the rule book") {
  CHECK(GameRules{}.end_zone_depth == 10);
  CHECK(drive::field_length == 100);
  CHECK(drive::down_count == 4);
  CHECK(first_down_at(75).to_go == 10);
  CHECK(first_down_at(10).to_go == 10);
  CHECK(first_down_at(7).to_go == 7);
  CHECK(GameRules{}.touchdown == 6);
  CHECK(GameRules{}.field_goal == 3);
  CHECK(GameRules{}.safety == 2);
}

// A kick is tried from 7 or 8 yards behind the line (common practice, no source) and the posts
// stand on the end line, 10 yards behind the goal line (NFL rule 1-3): line + 17 or 18. The try is
// kicked from the 15 since 2015 (NFL 11-3-1) and counted as 33 yards, which means 18.
TEST_CASE("a field goal's distance is the line plus eighteen yards") {
  CHECK(15 + GameRules{}.kick_distance_beyond_line == 33);
  Setting setting = fixture::setting();
  setting.field_goal = {3.0, -0.1, 60};
  const drive::Endings endings = drive::make_endings(setting);
  CHECK(endings.kick_made[15] == Approx(1 / (1 + std::exp(0.3))));
  CHECK(endings.kick_made[42] > 0);
  CHECK(endings.kick_made[43] == 0);  // 61 yards: beyond the longest
}

// Missed kicks: the spot of the kick in the professional game (NFL rule 11-4-2), the line before it
// in college (NCAA 8-4-2), never inside the own 20.
TEST_CASE("missed field goals are taken over where the rules say") {
  Setting setting = fixture::setting();
  const drive::Endings spot = drive::make_endings(setting);
  CHECK(spot.missed_kick[30] == 38);
  CHECK(spot.missed_kick[5] == 20);
  setting.rules.missed_kick_behind_line = 0;
  const drive::Endings line = drive::make_endings(setting);
  CHECK(line.missed_kick[30] == 30);
  CHECK(line.missed_kick[5] == 20);
}

// "If the enforcement of a distance penalty would move the ball more than half the distance from
// the spot of enforcement to the offender's goal line, the penalty shall be half the distance"
// (NFL rule 14-2-1). Interference in the end zone: first and goal at the 1 (NFL 8-5).
TEST_CASE("penalties are walked off, half the distance near a goal") {
  CHECK(moved_to(certain(Side::offence, 10), 50) == 40);
  CHECK(moved_to(certain(Side::offence, 10), 90) == 5);  // own 10: half of it
  CHECK(moved_to(certain(Side::offence, 5), 91) == 5);   // own 9: 4 yards
  CHECK(moved_to(certain(Side::offence, 5), 99) == 1);
  CHECK(moved_to(certain(Side::defence, 15), 60) == 55);
  CHECK(moved_to(certain(Side::defence, 15), 20) == 90);
  CHECK(moved_to(certain(Side::defence, 5), 1) == 99);

  Penalty spot = certain(Side::defence, 30);
  spot.spot_foul = true;
  CHECK(moved_to(spot, 50) == 80);
  CHECK(moved_to(spot, 25) == 99);  // in the end zone: the 1-yard line

  Penalty after = certain(Side::offence, 0);
  after.move = {-7, {1}};
  CHECK(moved_to(after, 50) == 43);
}

// Each by what its own settings say; which fouls do which is the setting's, not asked here.
TEST_CASE("penalties replay the down, use it up or make a first down") {
  Penalty penalty = certain(Side::defence, 5);
  CHECK(drive::penalty_moves({penalty}, {0}, 50).replay.size() == 1);
  penalty.down_counts = true;
  CHECK(drive::penalty_moves({penalty}, {0}, 50).next_down.size() == 1);
  penalty.automatic_first_down = true;
  CHECK(drive::penalty_moves({penalty}, {0}, 50).first_down.size() == 1);
  CHECK(drive::penalty_moves({penalty}, {}, 50).total == 0);
}

// Statistics crews score a down that stands as a play, whatever foul follows it (common practice,
// no source); a foul that wipes the down out leaves no play.
TEST_CASE("a foul counts as a play where one was run") {
  Penalty wiped_out = certain(Side::defence, 5);
  wiped_out.automatic_first_down = true;
  CHECK(drive::penalty_moves({wiped_out}, {0}, 50).with_play == 0);
  Penalty after_gain = certain(Side::defence, 0);
  after_gain.move = {-3, {0.5, 0, 0, 0, 0, 0.5}};
  after_gain.automatic_first_down = true;
  const drive::PenaltyMoves moves = drive::penalty_moves({wiped_out, after_gain}, {0, 1}, 50);
  CHECK(moves.total == 2);
  CHECK(moves.with_play == 1);
  double with_play = 0;
  for (const drive::Move& move : moves.first_down) with_play += move.with_play;
  CHECK(with_play == 1);
  Penalty used_up = certain(Side::offence, 5);
  used_up.down_counts = true;
  CHECK(drive::penalty_moves({used_up}, {0}, 50).with_play == 1);
}

// A punt or an interception that dies behind the goal line is spotted on the 20 (NFL rule 11-6-3,
// NCAA 8-6-2). Returns and shares of touchbacks are the test's own; a spot beyond the goal line is
// the 99.
TEST_CASE("takeovers are shares, touchbacks go to the 20") {
  Setting setting = fixture::setting();
  const drive::Endings endings = drive::make_endings(setting);
  for (std::size_t y = 1; y <= 99; ++y) {
    CHECK(total(endings.punt[y]) == Approx(1).epsilon(1e-12));
    CHECK(total(endings.interception[y]) == Approx(1).epsilon(1e-12));
    CHECK(total(endings.fumble[y]) == Approx(1).epsilon(1e-12));
  }
  CHECK(endings.interception[0][20] == 1);
  CHECK(endings.punt[40][20] >= 0.3);

  setting.turnovers = {{3, {1}}, 0.25, {-4, {1}}, 0};
  const drive::Endings certain_return = drive::make_endings(setting);
  CHECK(certain_return.interception[60][63] == 0.75);
  CHECK(certain_return.interception[60][drive::return_score_slot] == 0.25);
  CHECK(certain_return.interception[98][99] == 0.75);
  CHECK(certain_return.fumble[60][56] == 1);
  CHECK(certain_return.fumble[2][1] == 1);
}

// A touchback needs the ball dead on or behind the goal line (NFL rule 11-6-1, NCAA 8-6-1).
TEST_CASE("interceptions behind the goal line are touchbacks") {
  CHECK(drive::interception_spot(30, 12) == 18);
  CHECK(drive::interception_spot(30, 30) == 0);
  CHECK(drive::interception_spot(30, 45) == 0);
  CHECK(drive::interception_spot(97, -5) == 99);
}

#include <drive/endings.hpp>
#include <drive/states.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace callfit::drive {
namespace {

int on_field(int own_yard) { return std::clamp(own_yard, 1, last_spot); }

// A return of `yards` toward our goal from the opponent's own yard line.
Takeover after_return(int own_yard, const YardPmf& yards, double touchdown) {
  Takeover where{};
  for (int gain = yards.first; gain <= yards.last(); ++gain)
    where[static_cast<Slot>(on_field(own_yard + gain))] += yards.at(gain) * (1 - touchdown);
  where[return_score_slot] += touchdown;
  return where;
}

Takeover at_own_yard(int own_yard) {
  Takeover where{};
  where[static_cast<Slot>(on_field(own_yard))] = 1;
  return where;
}

Takeover after_punt(const PuntRule& rule, int yards_to_goal, const GameRules& rules) {
  Takeover where{};
  const double played = 1 - rule.return_touchdown;
  for (int net = rule.net.first; net <= rule.net.last(); ++net)
    where[static_cast<Slot>(on_field(yards_to_goal - net))] +=
        rule.net.at(net) * (1 - rule.touchback) * played;
  where[static_cast<Slot>(rules.touchback_own_yard)] += rule.touchback * played;
  where[return_score_slot] += rule.return_touchdown;
  return where;
}

Takeover punt_from(const Setting& setting, int yards_to_goal) {
  for (const PuntRule& rule : setting.punts)
    if (rule.yards_to_goal.contains(yards_to_goal))
      return after_punt(rule, yards_to_goal, setting.rules);
  return at_own_yard(setting.rules.touchback_own_yard);
}

Slot missed_kick_from(const GameRules& rules, int yards_to_goal) {
  const int spot = yards_to_goal + rules.missed_kick_behind_line;
  return static_cast<Slot>(on_field(std::max(rules.missed_kick_minimum_own_yard, spot)));
}

}  // namespace

Endings make_endings(const Setting& setting) {
  Endings endings;
  const GameRules& rules = setting.rules;
  const TurnoverReturns& turnovers = setting.turnovers;
  endings.interception[0] = at_own_yard(rules.touchback_own_yard);
  for (int spot = 1; spot <= last_spot; ++spot) {
    const auto i = static_cast<std::size_t>(spot);
    endings.punt[i] = punt_from(setting, spot);
    endings.interception[i] =
        after_return(spot, turnovers.interception_return, turnovers.interception_touchdown);
    endings.fumble[i] = after_return(spot, turnovers.fumble_return, turnovers.fumble_touchdown);
    endings.missed_kick[i] = missed_kick_from(rules, spot);
    endings.kick_made[i] = setting.field_goal.make(spot + rules.kick_distance_beyond_line);
  }
  return endings;
}

double Column::expected(DriveResult how, const Takeover& where) const {
  double sum = 0;
  for (Slot s = 0; s < slot_count; ++s) sum += where[s] * slot[s];
  return result[static_cast<std::size_t>(how)] + sum;
}

Column points_column(const GameRules& rules) {
  Column column;
  column.result[static_cast<std::size_t>(DriveResult::touchdown)] =
      rules.touchdown + rules.try_mean;
  column.result[static_cast<std::size_t>(DriveResult::field_goal)] = rules.field_goal;
  return column;
}

Column net_column(const GameRules& rules, const NetValues& net) {
  Column column = points_column(rules);
  for (int own = 1; own <= last_spot; ++own)
    column.slot[static_cast<Slot>(own)] =
        -net.first_and_ten[static_cast<std::size_t>(field_length - own)];
  column.slot[kickoff_slot] = -net.after_kickoff;
  column.slot[return_score_slot] = -(rules.touchdown + rules.try_mean) + net.after_kickoff;
  column.slot[safety_slot] = -rules.safety - net.after_safety_kick;
  return column;
}

Column share_column(DriveResult result) {
  Column column;
  column.result[static_cast<std::size_t>(result)] = 1;
  return column;
}

Column first_downs_column() {
  Column column;
  column.first_down = 1;
  return column;
}

Column plays_column() {
  Column column;
  column.play = 1;
  return column;
}

Column slot_column(Slot slot) {
  Column column;
  column.slot[slot] = 1;
  return column;
}

}  // namespace callfit::drive

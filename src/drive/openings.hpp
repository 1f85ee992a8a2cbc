// The series that a snap opens, by a play or by a foul: what walks over visited states share.
#pragma once

#include <drive/table.hpp>

#include <algorithm>

namespace callfit::drive {

/// Where a snap is taken.
struct SnapState {
  int down = 1, line = 0, own = 1;

  std::size_t index() const { return state_index(down, line, own); }
  int yards_to_goal() const { return field_length - own; }
  int to_go() const { return field_length - own - line; }
  /// Whether a ball moved there gains the line.
  bool gained_at(int own_yard) const { return own_yard > spots_short_of(line); }
};

/// Calls visit(SnapState) for every state.
template <class Visit>
void for_each_state(const Visit& visit) {
  for (int down = 1; down <= down_count; ++down)
    for (int line = 0; line < line_count; ++line)
      for (int own = 1; own <= spots_short_of(line); ++own) visit(SnapState{down, line, own});
}

inline const PenaltyMoves& penalties_at(const Plan& plan, const SnapState& at) {
  return plan.penalties[plan.penalty_set_of[at.index()]][static_cast<std::size_t>(at.own)];
}

/// Kept gains of the snap's plays, to be looked up by yards: index from plan.first_gain on.
inline const double* kept_gains(const Plan& plan, const ClassTable& table, const SnapState& at) {
  return table.keep.data() + plan.layout.of_row(plan.row_of[at.index()]).offset - plan.first_gain;
}

/// Of plays there, the share that just reaches the line and is spotted short of it.
inline double share_pulled_back(const Plan& plan, const ClassTable& table, const SnapState& at) {
  if (at.line == 0) return 0;
  return spotted_short(plan, at.line) * kept_gains(plan, table, at)[at.to_go()];
}

/// Calls open(own yard, share of the plays there) for every first down that a play makes,
/// touchdowns apart.
template <class Open>
void for_each_opened_by_play(const Plan& plan, const ClassTable& table, const SnapState& at,
                             const Open& open) {
  if (at.line == 0) return;
  const double* kept = kept_gains(plan, table, at);
  open(at.own + at.to_go(), kept[at.to_go()] - share_pulled_back(plan, table, at));
  for (int gain = at.to_go() + 1; gain < at.yards_to_goal(); ++gain)
    open(at.own + gain, kept[gain]);
}

/// Calls open(own yard, share of the visits there that end in no half) for every first down by
/// foul.
template <class Open>
void for_each_opened_by_foul(const Plan& plan, const SnapState& at, const Open& open) {
  const PenaltyMoves& moves = penalties_at(plan, at);
  for (const Move& move : moves.first_down) open(move.own_yard, move.probability);
  for (const auto* others : {&moves.replay, &moves.next_down})
    for (const Move& move : *others)
      if (at.gained_at(move.own_yard)) open(move.own_yard, move.probability);
}

}  // namespace callfit::drive

// How accepted penalties move the ball, and which of them a state can meet.
#include <drive/plan.hpp>

#include <algorithm>
#include <map>

namespace callfit::drive {
namespace {

// Yards toward the goal. Half the distance: NFL rule 14-2-1 (number from memory).
int moved_by(const Penalty& penalty, int yards, int spot) {
  const bool against_defence = penalty.side == Side::defence;
  const int to_offenders_goal = against_defence ? spot : field_length - spot;
  const int most = penalty.spot_foul ? to_offenders_goal - 1 : to_offenders_goal / 2;
  return against_defence ? std::min(yards, most) : -std::min(yards, most);
}

class MoveSums {
 public:
  void add(int own_yard, double probability, bool with_play) {
    if (!(probability > 0)) return;
    Move& move = sum_[std::clamp(own_yard, 1, last_spot)];
    move.probability += probability;
    if (with_play) move.with_play += probability;
  }
  std::vector<Move> moves() const {
    std::vector<Move> out;
    for (const auto& [own, move] : sum_) out.push_back({own, move.probability, move.with_play});
    return out;
  }

 private:
  std::map<int, Move> sum_;
};

void add_penalty(MoveSums& sums, const Penalty& penalty, int spot) {
  const int own = field_length - spot;
  const bool whole_move = !penalty.move.p.empty();
  const YardPmf& yards = whole_move ? penalty.move : penalty.yards;
  for (int y = yards.first; y <= yards.last(); ++y)
    sums.add(own + (whole_move ? y : moved_by(penalty, y, spot)), penalty.probability * yards.at(y),
             penalty.with_play());
}

}  // namespace

PenaltyMoves penalty_moves(const std::vector<Penalty>& penalties,
                           const std::vector<std::size_t>& which, int yards_to_goal) {
  MoveSums replay;
  MoveSums next_down;
  MoveSums first_down;
  PenaltyMoves moves;
  for (const std::size_t i : which) {
    const Penalty& penalty = penalties[i];
    MoveSums& others = penalty.down_counts ? next_down : replay;
    add_penalty(penalty.automatic_first_down ? first_down : others, penalty, yards_to_goal);
    moves.total += penalty.probability;
    if (penalty.with_play()) moves.with_play += penalty.probability;
  }
  moves.replay = replay.moves();
  moves.next_down = next_down.moves();
  moves.first_down = first_down.moves();
  return moves;
}

// Lines whose spots meet the same sets, as far as they have spots, share what settles replays.
void find_replays(Plan& plan) {
  plan.replays.clear();
  std::vector<std::vector<std::uint16_t>> known;  // sets by own yard, of the longest line
  for (int line = 0; line < line_count; ++line)
    for (int down = 1; down <= down_count; ++down) {
      const auto first =
          plan.penalty_set_of.begin() + static_cast<std::ptrdiff_t>(state_index(down, line, 1));
      const auto last = first + spots_short_of(line);
      const auto found = std::find_if(known.begin(), known.end(), [&](const auto& sets) {
        return std::equal(first, last, sets.begin());
      });
      plan.replays_of[static_cast<std::size_t>(down - 1)][static_cast<std::size_t>(line)] =
          static_cast<std::uint16_t>(found - known.begin());
      if (found != known.end()) continue;
      known.emplace_back(first, last);
      plan.replays.emplace_back(
          spots_short_of(line),
          [&](int own) -> const std::vector<Move>& {
            return plan.penalties_at(down, line, own).replay;
          },
          1 - plan.half_hazard);
    }
}

void find_penalties(Plan& plan) {
  const auto& penalties = plan.setting.penalties;
  std::map<std::vector<std::size_t>, std::size_t> set_of;
  plan.penalty_set_of.reserve(state_count);
  for (int down = 1; down <= down_count; ++down)
    for (int line = 0; line < line_count; ++line)
      for (int own = 1; own <= spots_short_of(line); ++own) {
        const int spot = field_length - own;
        std::vector<std::size_t> which;
        for (std::size_t i = 0; i < penalties.size(); ++i)
          if (penalties[i].when.matches(down, spot - line, spot)) which.push_back(i);
        const auto [entry, is_new] = set_of.try_emplace(std::move(which), set_of.size());
        plan.penalty_set_of.push_back(static_cast<std::uint16_t>(entry->second));
      }
  plan.penalties.resize(set_of.size());
  for (const auto& [which, set] : set_of)
    for (int own = 1; own <= last_spot; ++own)
      plan.penalties[set][static_cast<std::size_t>(own)] =
          penalty_moves(penalties, which, field_length - own);
  find_replays(plan);
}

}  // namespace callfit::drive

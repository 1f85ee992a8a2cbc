#include <base/vector_loops.hpp>
#include <drive/visits.hpp>

#include <algorithm>
#include <array>
#include <numeric>
#include <utility>

namespace callfit::drive {
namespace {

constexpr double forgotten = 1e-14;  // drives left when pushing stops
constexpr double none_left = 1e-18;

// out += by * p; the two are apart.
CALLFIT_WIDE_VECTORS
void add_scaled(double* out, const double* p, int count, double by) {
  CALLFIT_INDEPENDENT_TURNS
  for (int i = 0; i < count; ++i) out[i] += by * p[i];
}

class Pusher {
 public:
  Pusher(const Plan& plan, const ClassTable& table, const FourthDownPlan& policy, int stop_inside)
      : plan_(plan),
        table_(table),
        policy_(policy),
        stop_from_(field_length - stop_inside),
        visits_(state_count, 0.0),
        arriving_(state_count, 0.0) {}

  std::vector<double> run(const std::vector<double>& start_share) {
    for (int spot = 1; spot <= last_spot; ++spot)
      start_series(field_length - spot, start_share[static_cast<std::size_t>(spot)]);
    while (std::accumulate(arriving_.begin(), arriving_.end(), 0.0) +
               std::accumulate(fresh_.begin(), fresh_.end(), 0.0) >
           forgotten)
      sweep();
    return std::move(visits_);
  }

 private:
  void start_series(int own, double share) { fresh_[static_cast<std::size_t>(own)] += share; }

  // Takes the new series whose line this is.
  void take_series(int line, std::array<double, field_length>& now) {
    const int nearest = line == 0 ? 1 : line + series_yards;
    for (int spot = nearest; spot <= std::min(line + series_yards, last_spot); ++spot) {
      const auto own = static_cast<std::size_t>(field_length - spot);
      now[own] = std::exchange(fresh_[own], 0.0);
    }
  }

  // Series move toward the goal, so most drives run to their end in one sweep.
  void sweep() {
    for (int line = line_count - 1; line >= 0; --line)
      for (int down = 1; down <= down_count; ++down) push_line(down, line);
  }

  void push_line(int down, int line) {
    const auto spots = static_cast<std::size_t>(spots_short_of(line));
    double* arriving = arriving_.data() + state_index(down, line, 1);
    std::array<double, field_length> now{};
    std::copy_n(arriving, spots, now.begin() + 1);
    std::fill_n(arriving, spots, 0.0);
    if (down == 1) take_series(line, now);
    add_replays(down, line, now);
    for (int own = 1; own <= spots_short_of(line); ++own) {
      const double visits = now[static_cast<std::size_t>(own)];
      if (visits < none_left) continue;
      visits_[state_index(down, line, own)] += visits;
      if (own >= stop_from_) continue;
      push_penalties(down, line, own, visits * (1 - plan_.half_hazard));
      push_plays(down, line, own, plays_at(plan_, policy_, state_index(down, line, own), visits));
    }
  }

  const PenaltyMoves& penalties_at(int down, int line, int own) const {
    const std::size_t set = plan_.penalty_set_of[state_index(down, line, own)];
    return plan_.penalties[set][static_cast<std::size_t>(own)];
  }

  // Replays of the same down bring drives back to other spots of the line at hand.
  void add_replays(int down, int line, std::array<double, field_length>& total) const {
    std::array<double, field_length> moving = total;
    for (double left = 1; left > none_left;) {
      std::array<double, field_length> next{};
      left = 0;
      for (int own = 1; own <= spots_short_of(line); ++own) {
        const double visits = moving[static_cast<std::size_t>(own)] * (1 - plan_.half_hazard);
        if (visits < none_left || own >= stop_from_) continue;
        for (const Move& move : penalties_at(down, line, own).replay)
          if (move.own_yard <= spots_short_of(line)) {
            next[static_cast<std::size_t>(move.own_yard)] += visits * move.probability;
            left += visits * move.probability;
          }
      }
      for (std::size_t own = 0; own < total.size(); ++own) total[own] += next[own];
      moving = next;
    }
  }

  void push_penalties(int down, int line, int own, double visits) {
    const PenaltyMoves& moves = penalties_at(down, line, own);
    for (const Move& move : moves.first_down)
      start_series(move.own_yard, visits * move.probability);
    for (const Move& move : moves.replay)
      if (move.own_yard > spots_short_of(line))
        start_series(move.own_yard, visits * move.probability);
    for (const Move& move : moves.next_down) {
      if (move.own_yard > spots_short_of(line))
        start_series(move.own_yard, visits * move.probability);
      else if (down < down_count)
        arriving_[state_index(down + 1, line, move.own_yard)] += visits * move.probability;
    }
  }

  void push_plays(int down, int line, int own, double plays) {
    const std::size_t r = plan_.row_of[state_index(down, line, own)];
    const double* keep = table_.keep.data() + plan_.layout.of_row(r).offset;
    const int spot = field_length - own;
    const int to_go = spot - line;
    const int start = std::max(plan_.first_gain, spot - last_spot);
    if (down < down_count)
      add_scaled(arriving_.data() + state_index(down + 1, line, own + start),
                 keep + (start - plan_.first_gain), to_go - start, plays);
    add_scaled(fresh_.data() + (own + to_go), keep + (to_go - plan_.first_gain), line, plays);
  }

  const Plan& plan_;
  const ClassTable& table_;
  const FourthDownPlan& policy_;
  int stop_from_;
  std::vector<double> visits_, arriving_;     // by state_index; first downs arrive in fresh_
  std::array<double, field_length> fresh_{};  // new series by own yard
};

}  // namespace

std::vector<double> visits_of(const Plan& plan, const ClassTable& table,
                              const FourthDownPlan& policy, const std::vector<double>& start_share,
                              int stop_inside) {
  return Pusher(plan, table, policy, stop_inside).run(start_share);
}

double plays_at(const Plan& plan, const FourthDownPlan& policy, std::size_t state, double visits) {
  const Row& row = plan.rows[plan.row_of[state]];
  const auto own = static_cast<std::size_t>(field_length - row.yards_to_goal);
  const double snapped =
      visits * (1 - plan.half_hazard) * (1 - plan.penalties[plan.penalty_set_of[state]][own].total);
  return state < fourth_down ? snapped : snapped * policy[state - fourth_down].go;
}

std::vector<double> plays_by_row(const Plan& plan, const FourthDownPlan& policy,
                                 const std::vector<double>& visits) {
  std::vector<double> plays(plan.rows.size(), 0.0);
  for (std::size_t state = 0; state < visits.size(); ++state)
    plays[plan.row_of[state]] += plays_at(plan, policy, state, visits[state]);
  return plays;
}

}  // namespace callfit::drive

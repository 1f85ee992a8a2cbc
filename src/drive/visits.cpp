#include <base/vector_loops.hpp>
#include <drive/lanes.hpp>
#include <drive/visits.hpp>

#include <algorithm>
#include <array>
#include <type_traits>
#include <utility>

namespace callfit::drive {
namespace {

// A state that fewer drives come to is not followed; where more may be left, so may they: what is
// dropped in so many pushes of every state is as much.
constexpr double too_few = 1e-18;
constexpr double pushes = 10;

/// A few classes side by side, one a lane; lanes beyond the last class repeat it. WideLanes can be
/// pushed only where wide_vectors_run().
template <class Lanes>
class Pusher {
 public:
  Pusher(const Table& table, std::size_t first_class, const std::vector<FourthDownPlan>& policies,
         const VisitOptions& options)
      : plan_(*table.plan),
        left_(options.left),
        none_left_(std::max(too_few, options.left / (pushes * static_cast<double>(state_count)))),
        stop_from_(field_length - options.stop_inside),
        kept_out_(plan_.rows.size()),
        go_(states_per_down),
        visits_(state_count),
        arriving_(state_count),
        fouled_(plan_.penalties.size() * field_length) {
    std::array<const double*, lane_count> keep;
    for (std::size_t lane = 0; lane < lane_count; ++lane) {
      const std::size_t k = std::min(first_class + lane, table.classes.size() - 1);
      keep[lane] = table.classes[k].keep.data();
      for (std::size_t r = 0; r < kept_out_.size(); ++r)
        kept_out_[r].set(lane, kept_out_of_own_goal(plan_, table.classes[k], r));
      for (std::size_t i = 0; i < go_.size(); ++i) go_[i].set(lane, policies[k][i].go);
    }
    keep_ = side_by_side<Lanes>(keep, plan_.layout.pool_size);
  }

  void start(const std::vector<double>& share) {
    for (std::size_t spot = 1; spot < field_length; ++spot)
      fresh_[field_length - spot].add(share[spot]);
  }
  void start(const DriveState& state) { arriving_[state_index(state)].add(1); }

  void run() {
    if constexpr (std::is_same_v<Lanes, WideLanes>)
      run_wide();
    else
      push_all();
  }

  std::vector<double> visits(std::size_t lane) const {
    std::vector<double> out;
    out.reserve(visits_.size());
    for (const Lanes& visits : visits_) out.push_back(visits[lane]);
    return out;
  }

 private:
  CALLFIT_WIDE_THROUGHOUT void run_wide() { push_all(); }

  // Series move toward the goal, so most drives run to their end in one sweep. What is left after
  // it are series that a penalty started behind the line at hand.
  void push_all() {
    for (double left = 1; left > left_;) {
      for (int line = line_count - 1; line >= 0; --line) {
        for (int down = 1; down <= down_count; ++down) push_line(down, line);
        start_fouled(line);
      }
      Lanes sum;
      for (const Lanes& series : fresh_) sum.add(series);
      left = sum.largest();
    }
  }

  // Takes the new series whose line this is.
  void take_series(int line) {
    const int nearest = line == 0 ? 1 : line + series_yards;
    for (int spot = nearest; spot <= std::min(line + series_yards, last_spot); ++spot) {
      const auto own = static_cast<std::size_t>(field_length - spot);
      now_[own].add(std::exchange(fresh_[own], Lanes{}));
    }
  }

  void push_line(int down, int line) {
    const int last = spots_short_of(line);
    Lanes* arriving = arriving_.data() + state_index(down, line, 1);
    std::copy_n(arriving, last, now_.begin() + 1);
    std::fill_n(arriving, last, Lanes{});
    if (down == 1) take_series(line);
    if (stop_from_ > last)
      plan_.replays_at(down, line).spread(now_.data() + 1, last);
    else
      follow_replays(down, line, last);
    for (int own = 1; own <= last; ++own) {
      const Lanes& visits = now_[static_cast<std::size_t>(own)];
      if (visits.largest() < none_left_) continue;
      visits_[state_index(down, line, own)].add(visits);
      if (own < stop_from_) push(down, line, own, visits);
    }
  }

  // Where drives stop, only those that have not stopped yet play a down again: followed replay by
  // replay.
  void follow_replays(int down, int line, int last) {
    std::array<Lanes, field_length> moving = now_;
    for (double left = 1; left > none_left_;) {
      std::array<Lanes, field_length> next{};
      left = 0;
      for (int own = 1; own < std::min(stop_from_, last + 1); ++own) {
        Lanes met = moving[static_cast<std::size_t>(own)];
        if (met.largest() < none_left_) continue;
        met.scale(1 - plan_.half_hazard);
        const std::size_t set = plan_.penalty_set_of[state_index(down, line, own)];
        for (const Move& move : plan_.penalties[set][static_cast<std::size_t>(own)].replay) {
          if (move.own_yard > last) break;
          next[static_cast<std::size_t>(move.own_yard)].add_product(met, move.probability);
        }
        left = std::max(left, met.largest());
      }
      for (int own = 1; own <= last; ++own)
        now_[static_cast<std::size_t>(own)].add(next[static_cast<std::size_t>(own)]);
      moving = next;
    }
  }

  void push(int down, int line, int own, const Lanes& visits) {
    const std::size_t set = plan_.penalty_set_of[state_index(down, line, own)];
    const PenaltyMoves& moves = plan_.penalties[set][static_cast<std::size_t>(own)];
    Lanes met = visits;
    met.scale(1 - plan_.half_hazard);
    fouled_[set * field_length + static_cast<std::size_t>(own)].add(met);
    push_penalties(down, line, moves, met);
    met.scale(1 - moves.total);
    if (down == down_count) met.scale(go_[place_index(line, own)]);
    push_plays(down, line, own, met);
  }

  void push_penalties(int down, int line, const PenaltyMoves& moves, const Lanes& met) {
    const int last = spots_short_of(line);
    // Moves are in the order of own yards: those that reach the line are the last ones.
    for (std::size_t i = moves.replay.size(); i-- > 0;) {
      const Move& move = moves.replay[i];
      if (move.own_yard <= last) break;
      start_series(move, met);
    }
    for (const Move& move : moves.next_down) {
      if (move.own_yard > last)
        start_series(move, met);
      else if (down < down_count)
        arriving_[state_index(down + 1, line, move.own_yard)].add_product(met, move.probability);
    }
  }

  void start_series(const Move& move, const Lanes& met) {
    fresh_[static_cast<std::size_t>(move.own_yard)].add_product(met, move.probability);
  }

  // First downs by penalty, of all downs of a line at once.
  void start_fouled(int line) {
    for (std::size_t set = 0; set < plan_.penalties.size(); ++set)
      for (int own = 1; own <= spots_short_of(line); ++own) {
        const auto at = static_cast<std::size_t>(own);
        Lanes& met = fouled_[set * field_length + at];
        if (met.largest() < none_left_) continue;
        for (const Move& move : plan_.penalties[set][at].first_down) start_series(move, met);
        met = Lanes{};
      }
  }

  void push_plays(int down, int line, int own, const Lanes& plays) {
    const std::size_t r = plan_.row_of[state_index(down, line, own)];
    const Lanes* keep = keep_.data() + plan_.layout.of_row(r).offset;
    const int spot = field_length - own;
    const int to_go = spot - line;
    const int start = std::max(plan_.first_gain, spot - last_spot);
    if (down < down_count) {
      add_products(arriving_.data() + state_index(down + 1, line, own + start),
                   keep + (start - plan_.first_gain), to_go - start, plays);
      arriving_[state_index(down + 1, line, 1)].add_product(plays, kept_out_[r]);
    }
    add_products(fresh_.data() + (own + to_go), keep + (to_go - plan_.first_gain), line, plays);
    if (const double share = spotted_short(plan_, line); share > 0)
      pull_back(down, line, keep[to_go - plan_.first_gain], plays, share);
  }

  // Plays that just reached the line and are spotted short of it.
  void pull_back(int down, int line, const Lanes& reached, Lanes plays, double share) {
    plays.scale(share);
    if (down < down_count)
      arriving_[state_index(down + 1, line, spots_short_of(line))].add_product(plays, reached);
    plays.scale(-1);
    fresh_[static_cast<std::size_t>(field_length - line)].add_product(plays, reached);
  }

  static void add_products(Lanes* out, const Lanes* p, int count, const Lanes& by) {
    for (int i = 0; i < count; ++i) out[i].add_product(by, p[i]);
  }

  const Plan& plan_;
  double left_;
  double none_left_;  // a state that fewer drives come to is not followed
  int stop_from_;
  std::vector<Lanes> keep_;                  // the classes' tables, side by side
  std::vector<Lanes> kept_out_;              // of the own goal, by row
  std::vector<Lanes> go_;                    // on fourth down, by place
  std::vector<Lanes> visits_, arriving_;     // by state_index; first downs arrive in fresh_
  std::vector<Lanes> fouled_;                // [penalty set][own yard]: snaps of the line at hand
  std::array<Lanes, field_length> fresh_{};  // new series by own yard
  std::array<Lanes, field_length> now_{};    // the line and down at hand, by own yard
};

template <class Lanes>
std::vector<std::vector<double>> visits_in(const Table& table,
                                           const std::vector<FourthDownPlan>& policies,
                                           const auto& start, const VisitOptions& options) {
  std::vector<std::vector<double>> out;
  for (std::size_t first = 0; first < table.classes.size(); first += lane_count) {
    Pusher<Lanes> pusher(table, first, policies, options);
    pusher.start(start);
    pusher.run();
    for (std::size_t k = first; k < std::min(first + lane_count, table.classes.size()); ++k)
      out.push_back(pusher.visits(k - first));
  }
  return out;
}

std::vector<std::vector<double>> visits_from(const Table& table,
                                             const std::vector<FourthDownPlan>& policies,
                                             const auto& start, const VisitOptions& options) {
  return wide_vectors_pay() ? visits_in<WideLanes>(table, policies, start, options)
                            : visits_in<NarrowLanes>(table, policies, start, options);
}

}  // namespace

std::vector<std::vector<double>> visits_of(const Table& table,
                                           const std::vector<FourthDownPlan>& policies,
                                           const std::vector<double>& start_share,
                                           const VisitOptions& options) {
  return visits_from(table, policies, start_share, options);
}

std::vector<std::vector<double>> visits_of(const Table& table,
                                           const std::vector<FourthDownPlan>& policies,
                                           const DriveState& start) {
  return visits_from(table, policies, start, {});
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

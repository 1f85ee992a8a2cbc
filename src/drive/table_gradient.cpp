#include <base/vector_loops.hpp>
#include <drive/table_gradient.hpp>

#include <algorithm>
#include <numeric>

namespace callfit::drive {
namespace {

constexpr std::size_t columns = 2;  // points and net
constexpr double unplayed = 1e-16;  // fewer plays of a state than count

// Plays of one row, and what those short of the line are worth by their gain.
struct RowPlays {
  std::size_t row = 0;
  double plays = 0;
  std::array<double, field_length> reaching{};     // by to_go
  std::array<double, field_length> pulled_back{};  // of those, spotted short of the line
  std::array<double, field_length> fourth{};       // those on fourth down, by to_go
  std::vector<Pair> next;                          // by gain - first_gain: downs 1 to 3
};

// What gains of one row that stay on the field lead to, by gain.
struct GainWorth {
  const double* first;       // plays that the gain is enough for
  const double* downs;       // on fourth down, plays that it is not
  const double* on_fourth;   // on fourth down, plays that it is just enough for, spotted short
  const Pair* next;          // what the others are worth on the next down, together
  const Pair* series;        // a first down where the gain ends
  const Pair* lost;          // the ball lost on downs there
  const Pair* lost_by_spot;  // and a yard before
  const Pair* fumbled;       // and to a fumble
  double plays;
  Pair scored;  // what a touchdown instead of any of them is worth
};

CALLFIT_WIDE_VECTORS
void add_worth(std::array<double, 4>* out, const GainWorth& worth, int count) {
  const GainWorth at = worth;
  CALLFIT_INDEPENDENT_TURNS
  for (int i = 0; i < count; ++i)
    for (std::size_t c = 0; c < columns; ++c) {
      out[i][c] += at.next[i][c] + at.first[i] * at.series[i][c] + at.downs[i] * at.lost[i][c] +
                   at.on_fourth[i] * at.lost_by_spot[i][c] - at.scored[c];
      out[i][columns + c] += at.plays * at.fumbled[i][c] - at.scored[c];
    }
}

class Gatherer {
 public:
  Gatherer(const Plan& plan, const FourthDownPlan& policy, const std::vector<double>& values,
           const std::vector<double>& visits, double weight)
      : plan_(plan),
        rewards_(plan.point_rewards),
        policy_(policy),
        values_(values),
        visits_(visits),
        weight_(weight),
        place_(plan.rows.size(), none) {
    for (int own = 1; own <= last_spot; ++own)
      for (std::size_t c = 0; c < columns; ++c)
        series_[static_cast<std::size_t>(own)][c] =
            values[state_index(1, line_of_series(field_length - own), own) * columns + c] +
            rewards_.first_down[c];
    for (std::size_t own = 0; own < field_length; ++own)
      for (std::size_t c = 0; c < columns; ++c) {
        const int spot = std::min(field_length - static_cast<int>(own), last_spot);
        lost_[own][c] = at_spot(rewards_.downs, spot)[c];
        fumbled_[own][c] = at_spot(rewards_.fumble, spot)[c];
      }
    gradient_.gains.resize(plan.every_call.pool_size);
    gradient_.interception.resize(plan.contexts.size() * plan.setting.families.size());
  }

  TableGradient gather() {
    for (int own = 1; own <= last_spot; ++own) {
      here_.clear();
      for (int down = 1; down <= down_count; ++down)
        for (int line = 0; own <= spots_short_of(line) && line < line_count; ++line)
          add_state(down, line, own);
      for (const RowPlays& row : here_) {
        add_gains(row, own);
        add_interceptions(row);
        place_[row.row] = none;
      }
    }
    return std::move(gradient_);
  }

 private:
  static const double* at_spot(const std::vector<double>& by_yards, int yards_to_goal) {
    return by_yards.data() + static_cast<std::size_t>(yards_to_goal) * columns;
  }

  RowPlays& at_row(std::size_t row, int own) {
    if (place_[row] == none) {
      place_[row] = here_.size();
      RowPlays& fresh = here_.emplace_back();
      fresh.row = row;
      fresh.next.assign(static_cast<std::size_t>(field_length - own - plan_.first_gain), Pair{});
    }
    return here_[place_[row]];
  }

  void add_state(int down, int line, int own) {
    const std::size_t state = state_index(down, line, own);
    const double plays = weight_ * plays_at(plan_, policy_, state, visits_[state]);
    if (plays < unplayed) return;
    RowPlays& row = at_row(plan_.row_of[state], own);
    const int to_go = field_length - own - line;
    row.plays += plays;
    row.reaching[static_cast<std::size_t>(to_go)] += plays;
    const double pulled_back = plays * spotted_short(plan_, line);
    row.pulled_back[static_cast<std::size_t>(to_go)] += pulled_back;
    if (down == down_count) {
      row.fourth[static_cast<std::size_t>(to_go)] += plays;
      return;
    }
    if (pulled_back > 0)
      add_scaled(row.next[static_cast<std::size_t>(to_go - plan_.first_gain)].data(),
                 values_.data() + columns * state_index(down + 1, line, spots_short_of(line)),
                 columns, pulled_back);
    const int smallest = std::max(plan_.first_gain, 1 - own);
    add_scaled(row.next[static_cast<std::size_t>(smallest - plan_.first_gain)].data(),
               values_.data() + columns * state_index(down + 1, line, own + smallest),
               columns * static_cast<std::size_t>(to_go - smallest), plays);
  }

  // By gain - first_gain, of a row's.
  void count_gains(const RowPlays& row, int count) {
    first_.assign(static_cast<std::size_t>(count), 0.0);
    downs_.assign(static_cast<std::size_t>(count), 0.0);
    on_fourth_.assign(static_cast<std::size_t>(count), 0.0);
    double made = 0;
    double downs = std::accumulate(row.fourth.begin(), row.fourth.end(), 0.0);
    for (int i = 0; i < count; ++i) {
      const auto at = static_cast<std::size_t>(i);
      const auto to_go = static_cast<std::size_t>(std::max(i + plan_.first_gain, 0));
      made += row.reaching[to_go];
      downs -= row.fourth[to_go];
      first_[at] = made - row.pulled_back[to_go];
      downs_[at] = downs;
      on_fourth_[at] = row.fourth[to_go] * plan_.setting.spotted_short;
    }
  }

  /// Behind the own goal line it is a safety, or the ball lies on the one; no such gain is enough.
  Pair worth_behind_goal(const RowPlays& row, int own) const {
    const double safety = plan_.setting.own_goal_safety(field_length - own);
    const auto on_the_one = static_cast<std::size_t>(1 - own - plan_.first_gain);
    Pair worth;
    for (std::size_t c = 0; c < columns; ++c)
      worth[c] = safety * row.plays * rewards_.safety[c] +
                 (1 - safety) * (row.next[on_the_one][c] + downs_[on_the_one] * lost_[1][c]);
    return worth;
  }

  void add_gains(const RowPlays& row, int own) {
    const int count = field_length - own - plan_.first_gain;
    count_gains(row, count);
    std::array<double, 4>* out = gradient_.gains.data() + plan_.every_call.of_row(row.row).offset;
    const Pair scored{row.plays * rewards_.touchdown[0], row.plays * rewards_.touchdown[1]};
    const int behind = std::max(0, 1 - own - plan_.first_gain);  // gains that end there
    if (behind > 0) {
      const Pair kept = worth_behind_goal(row, own);
      for (int i = 0; i < behind; ++i)
        for (std::size_t c = 0; c < columns; ++c) {
          out[i][c] += kept[c] - scored[c];
          out[i][columns + c] += row.plays * fumbled_[1][c] - scored[c];
        }
    }
    const auto to = static_cast<std::size_t>(own + plan_.first_gain + behind);  // own yard
    add_worth(out + behind,
              {first_.data() + behind, downs_.data() + behind, on_fourth_.data() + behind,
               row.next.data() + behind, series_.data() + to, lost_.data() + to,
               lost_.data() + to - 1, fumbled_.data() + to, row.plays, scored},
              count - behind);
  }

  void add_interceptions(const RowPlays& plays) {
    const Row& row = plan_.rows[plays.row];
    const std::size_t families = plan_.setting.families.size();
    for (std::size_t f = 0; f < families; ++f) {
      const double* lost =
          at_spot(rewards_.interception, static_cast<int>(f) * field_length + row.yards_to_goal);
      for (std::size_t c = 0; c < columns; ++c)
        gradient_.interception[row.context * families + f][c] +=
            plays.plays * (lost[c] - rewards_.touchdown[c]);
    }
  }

  const Plan& plan_;
  const Rewards& rewards_;
  const FourthDownPlan& policy_;
  const std::vector<double>& values_;
  const std::vector<double>& visits_;
  double weight_;
  // By own yard: a first down there, the ball lost there on downs or to a fumble; 0 counts as 1.
  std::array<Pair, field_length> series_{}, lost_{}, fumbled_{};
  std::vector<double> first_, downs_, on_fourth_;  // by gain, of the row at hand
  std::vector<std::size_t> place_;                 // of a row in here_
  std::vector<RowPlays> here_;                     // rows of the spot at hand
  TableGradient gradient_;
};

}  // namespace

TableGradient table_gradient(const Plan& plan, const FourthDownPlan& policy,
                             const std::vector<double>& values, const std::vector<double>& visits,
                             double weight) {
  return Gatherer(plan, policy, values, visits, weight).gather();
}

TableGradient scaled(TableGradient by, double factor) {
  for (auto& slopes : by.gains)
    for (double& slope : slopes) slope *= factor;
  for (Pair& slopes : by.interception)
    for (double& slope : slopes) slope *= factor;
  return by;
}

Pair value_in(const Plan& plan, const ClassTable& table, const TableGradient& by) {
  const double bad = plan.setting.bad_snap.probability;
  const double lost = plan.setting.bad_snap.fumble_lost;
  const auto no_gain = static_cast<std::size_t>(-plan.first_gain);
  Pair sum{};
  const auto add_slice = [&](const Slice& outcomes, const Slice& slopes) {
    const auto count = static_cast<std::size_t>(std::min(outcomes.count, slopes.count));
    const auto* slope = by.gains.data() + slopes.offset;
    for (std::size_t c = 0; c < columns; ++c) {
      for (std::size_t i = 0; i < count; ++i)
        sum[c] += table.keep[outcomes.offset + i] * slope[i][c] +
                  table.fumble[outcomes.offset + i] * slope[i][columns + c];
      sum[c] -= bad * ((1 - lost) * slope[no_gain][c] + lost * slope[no_gain][columns + c]);
    }
  };
  for (std::size_t context = 0; context < plan.contexts.size(); ++context)
    add_slice(plan.layout.slices[context], plan.every_call.slices[context]);
  for (std::size_t r = 0; r < plan.rows.size(); ++r)
    if (plan.every_call.of_row(r).yards_to_goal > 0)
      add_slice(plan.layout.of_row(r), plan.every_call.of_row(r));
  for (std::size_t i = 0; i < table.interception.size(); ++i)
    for (std::size_t c = 0; c < columns; ++c)
      sum[c] += table.interception[i] * by.interception[i][c];
  return sum;
}

}  // namespace callfit::drive

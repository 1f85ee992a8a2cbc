#include <callfit/drive/course.hpp>
#include <drive/exact.hpp>
#include <drive/visits.hpp>

#include <array>

namespace callfit {
namespace drive {
namespace {

constexpr int third = 3;

/// Calls f(state, down, line, own yard) for every state.
template <class F>
void for_each_state(const F& f) {
  for (int down = 1; down <= down_count; ++down)
    for (int line = 0; line < line_count; ++line)
      for (int own = 1; own <= spots_short_of(line); ++own)
        f(state_index(down, line, own), down, line, own);
}

/// Goal-to-go series share their line, so they count together.
std::size_t opening_of(int line) { return static_cast<std::size_t>(line + series_yards); }

/// Adds up one quality class, weighted.
class CourseOfClass {
 public:
  CourseOfClass(const Table& table, std::size_t quality, const FourthDownPlan& policy,
                DriveCourse& out)
      : plan_(*table.plan),
        table_(table.classes[quality]),
        policy_(policy),
        weight_(class_weight(plan_, quality)),
        out_(out) {}

  void add_series(const std::vector<double>& start_share, const std::vector<double>& visits) {
    std::vector<double>& met = out_.first_and_ten.emplace_back(field_length, 0.0);
    for (int spot = 1; spot <= last_spot; ++spot)
      met[static_cast<std::size_t>(spot)] = weight_ * visits[state_index(first_down_at(spot))];
    for (int spot = 1; spot <= last_spot; ++spot)
      open(field_length - spot, start_share[static_cast<std::size_t>(spot)]);
    for_each_state([&](std::size_t state, int down, int line, int own) {
      if (visits[state] == 0) return;
      const double plays = plays_at(plan_, policy_, state, visits[state]);
      const double reached = play_on(state, line, own, plays);
      out_.converted[opening_of(line)] +=
          weight_ * (reached + penalise(state, line, own, visits[state]));
      if (down != third) return;
      const auto to_go = static_cast<std::size_t>(field_length - line - own);
      out_.third_downs[to_go] += weight_ * plays;
      out_.gained[to_go] += weight_ * reached;
    });
  }

  /// `coming`: visits that stop inside the red zone; `sweep`: of the shares of touchdowns, alone.
  void add_red_zone(const std::vector<double>& coming, const auto& sweep, std::size_t lane) {
    for_each_state([&](std::size_t state, int, int, int own) {
      if (own < field_length - red_zone_from) return;
      out_.red_zone += weight_ * coming[state];
      out_.red_zone_touchdowns += weight_ * coming[state] * sweep.value(state, 0, lane);
    });
  }

 private:
  void open(int own, double share) {
    out_.series[opening_of(line_of_series(field_length - own))] += weight_ * share;
  }

  /// Opens the series that plays lead to; how many there are, touchdowns included.
  double play_on(std::size_t state, int line, int own, double plays) {
    const std::size_t r = plan_.row_of[state];
    const Row& row = plan_.rows[r];
    const double* keep = table_.keep.data() + plan_.layout.of_row(r).offset;
    double sum = plays * table_.touchdown[r];
    for (int g = row.yards_to_goal - line; g < row.yards_to_goal; ++g) {
      const double there = g == row.yards_to_goal - line ? 1 - spotted_short(plan_, line) : 1.0;
      const double share = plays * there * keep[g - plan_.first_gain];
      open(own + g, share);
      sum += share;
    }
    return sum;
  }

  /// The same for penalties.
  double penalise(std::size_t state, int line, int own, double visits) {
    const PenaltyMoves& moves =
        plan_.penalties[plan_.penalty_set_of[state]][static_cast<std::size_t>(own)];
    double sum = 0;
    const auto take = [&](const Move& move) {
      const double share = visits * (1 - plan_.half_hazard) * move.probability;
      open(move.own_yard, share);
      sum += share;
    };
    for (const Move& move : moves.first_down) take(move);
    for (const auto* others : {&moves.replay, &moves.next_down})
      for (const Move& move : *others)
        if (move.own_yard > spots_short_of(line)) take(move);
    return sum;
  }

  const Plan& plan_;
  const ClassTable& table_;
  const FourthDownPlan& policy_;
  double weight_;
  DriveCourse& out_;
};

}  // namespace
}  // namespace drive

DriveCourse course_of(const DriveModel& model, const std::vector<double>& start_share) {
  const drive::Table& table = model.table();
  DriveCourse out;
  for (auto* counts : {&out.series, &out.converted, &out.third_downs, &out.gained})
    counts->assign(drive::field_length, 0.0);
  const std::vector<drive::FourthDownPlan> policies = drive::policies_of(table);
  const drive::Rewards rewards =
      drive::make_rewards(*table.plan, std::array{drive::share_column(DriveResult::touchdown)});
  const auto visits = drive::visits_of(table, policies, start_share);
  const auto coming = drive::visits_of(table, policies, start_share, {red_zone_from});
  drive::for_each_class<1>(table, rewards, policies, FourthDownPolicy::table,
                           [&](const auto& sweep, std::size_t k, std::size_t lane) {
                             drive::CourseOfClass course(table, k, policies[k], out);
                             course.add_series(start_share, visits[k]);
                             course.add_red_zone(coming[k], sweep, lane);
                           });
  return out;
}

}  // namespace callfit

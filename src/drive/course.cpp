#include <callfit/drive/course.hpp>
#include <drive/exact.hpp>
#include <drive/openings.hpp>
#include <drive/visits.hpp>

#include <array>

namespace callfit {
namespace drive {
namespace {

constexpr int third = 3;

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
    for_each_state([&](const SnapState& at) {
      const std::size_t state = at.index();
      if (visits[state] == 0) return;
      const double plays = plays_at(plan_, policy_, state, visits[state]);
      const double reached = play_on(at, plays);
      out_.converted[opening_of(at.line)] += weight_ * (reached + penalise(at, visits[state]));
      if (at.down != third) return;
      const auto to_go = static_cast<std::size_t>(at.to_go());
      out_.third_downs[to_go] += weight_ * plays;
      out_.gained[to_go] += weight_ * reached;
    });
  }

  /// `coming`: visits that stop inside the red zone; `sweep`: of the shares of touchdowns, alone.
  void add_red_zone(const std::vector<double>& coming, const auto& sweep, std::size_t lane) {
    for_each_state([&](const SnapState& at) {
      if (at.yards_to_goal() > red_zone_from) return;
      const double come = weight_ * coming[at.index()];
      out_.red_zone += come;
      out_.red_zone_touchdowns += come * sweep.value(at.index(), 0, lane);
    });
  }

 private:
  void open(int own, double share) {
    out_.series[opening_of(line_of_series(field_length - own))] += weight_ * share;
  }

  /// Opens the series that plays lead to; how many there are, touchdowns included.
  double play_on(const SnapState& at, double plays) {
    double sum = plays * table_.touchdown[plan_.row_of[at.index()]];
    for_each_opened_by_play(plan_, table_, at, [&](int own, double share) {
      open(own, plays * share);
      sum += plays * share;
    });
    return sum;
  }

  /// The same for penalties.
  double penalise(const SnapState& at, double visits) {
    const double met = visits * (1 - plan_.half_hazard);
    double sum = 0;
    for_each_opened_by_foul(plan_, at, [&](int own, double share) {
      open(own, met * share);
      sum += met * share;
    });
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

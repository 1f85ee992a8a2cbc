#include <callfit/drive/drive.hpp>
#include <drive/exact.hpp>
#include <drive/visits.hpp>

#include <algorithm>
#include <array>
#include <utility>

namespace callfit {
namespace drive {

FourthDownPlan table_policy(const Plan& plan) {
  FourthDownPlan policy;
  policy.reserve(states_per_down);
  for (const std::uint16_t rule : plan.fourth_down_of) {
    const FourthDownRule& shares = plan.setting.fourth_down[rule];
    policy.push_back({shares.go, shares.punt, shares.field_goal});
  }
  return policy;
}

double class_weight(const Plan& plan, std::size_t quality) {
  return plan.setting.quality.empty() ? 1.0 : plan.setting.quality[quality].weight;
}

std::vector<FourthDownPlan> table_policies(const Table& table) {
  return {table.classes.size(), table_policy(*table.plan)};
}

std::vector<ClassPoints> solve_class_points(const Table& table, const SolveOptions& options) {
  const Plan& plan = *table.plan;
  const Approach<2> approach{options.tolerance, options.near, options.most_to_go};
  std::vector<ClassPoints> out;
  for_each_class<2>(
      table, plan.point_rewards, table_policies(table), plan.options.policy,
      [&](const auto& sweep, std::size_t, std::size_t lane) {
        ClassPoints& points = out.emplace_back();
        if (plan.options.policy == FourthDownPolicy::best) points.policy = sweep.policy(lane);
        points.sweeps = sweep.sweeps();
        points.first_and_ten = first_downs_of(sweep, lane);
      },
      approach);
  return out;
}

std::vector<FourthDownPlan> policies_of(const Table& table) {
  if (table.plan->options.policy == FourthDownPolicy::table) return table_policies(table);
  std::vector<FourthDownPlan> policies;
  for (ClassPoints& points : solve_class_points(table))
    policies.push_back(std::move(points.policy));
  return policies;
}

std::vector<double> first_and_ten(const Table& table, const std::vector<FourthDownPlan>& policies,
                                  const Column& column) {
  const Plan& plan = *table.plan;
  const Rewards rewards = make_rewards(plan, {&column, 1});
  std::vector<double> out(field_length, 0.0);
  for_each_class<1>(table, rewards, policies, FourthDownPolicy::table,
                    [&](const auto& sweep, std::size_t k, std::size_t lane) {
                      const FirstDowns<1> values = first_downs_of(sweep, lane);
                      for (std::size_t y = 1; y < out.size(); ++y)
                        out[y] += class_weight(plan, k) * values[y][0];
                    });
  return out;
}

namespace {

std::vector<Column> all_columns(const Plan& plan) {
  std::vector<Column> columns{plan.points, plan.net};
  for (std::size_t r = 0; r < drive_result_count; ++r)
    columns.push_back(share_column(static_cast<DriveResult>(r)));
  columns.push_back(first_downs_column());
  columns.push_back(plays_column());
  return columns;
}

std::vector<double> by_state(const auto& sweep, std::size_t lane) {
  std::vector<double> values;
  values.reserve(state_count * full_columns);
  for (std::size_t state = 0; state < state_count; ++state)
    for (std::size_t c = 0; c < full_columns; ++c) values.push_back(sweep.value(state, c, lane));
  return values;
}

DriveValues to_values(const std::array<double, full_columns>& sum) {
  DriveValues values;
  values.points = sum[0];
  values.net_points = sum[net_index];
  for (std::size_t r = 0; r < drive_result_count; ++r) values.share[r] = sum[first_share + r];
  values.first_downs = sum[first_downs_index];
  values.plays = sum[plays_index];
  return values;
}

void add_state(std::array<double, full_columns>& sum, const Solution& solution,
               const DriveState& state, double weight) {
  for (std::size_t k = 0; k < solution.values.size(); ++k) {
    const double share = weight * class_weight(*solution.table->plan, k);
    const double* value = solution.values[k].data() + state_index(state) * full_columns;
    for (std::size_t c = 0; c < full_columns; ++c) sum[c] += share * value[c];
  }
}

std::vector<double> plays_by_situation(const Table& table,
                                       const std::vector<FourthDownPlan>& policies,
                                       const auto& start) {
  const Plan& plan = *table.plan;
  std::vector<double> sum(plan.scheme.situations.size(), 0.0);
  const auto visits = visits_of(table, policies, start);
  for (std::size_t k = 0; k < visits.size(); ++k) {
    const std::vector<double> plays = plays_by_row(plan, policies[k], visits[k]);
    for (std::size_t r = 0; r < plays.size(); ++r)
      sum[plan.contexts[plan.rows[r].context].situation] += class_weight(plan, k) * plays[r];
  }
  return sum;
}

double over(const std::vector<double>& values, const std::vector<double>& start_share) {
  double sum = 0;
  for (std::size_t y = 1; y < values.size(); ++y) sum += start_share[y] * values[y];
  return sum;
}

}  // namespace
}  // namespace drive

DriveState first_down_at(int yards_to_goal) {
  return {1, std::min(drive::series_yards, yards_to_goal), yards_to_goal};
}

ExactDrives solve(const DriveModel& model) {
  const drive::Table& table = model.table();
  const auto columns = drive::all_columns(*table.plan);
  const drive::Rewards rewards = drive::make_rewards(*table.plan, columns);
  auto solution = std::make_shared<drive::Solution>();
  solution->table = model.shared_table();
  solution->policy = drive::policies_of(table);
  drive::for_each_class<drive::full_columns>(
      table, rewards, solution->policy, FourthDownPolicy::table,
      [&](const auto& sweep, std::size_t, std::size_t lane) {
        solution->values.push_back(drive::by_state(sweep, lane));
      });
  return ExactDrives(std::move(solution));
}

DriveValues ExactDrives::at(const DriveState& state) const {
  std::array<double, drive::full_columns> sum{};
  drive::add_state(sum, *solution_, state, 1);
  return drive::to_values(sum);
}

DriveValues ExactDrives::over(const std::vector<double>& start_share) const {
  std::array<double, drive::full_columns> sum{};
  for (int y = 1; y <= drive::last_spot; ++y)
    drive::add_state(sum, *solution_, first_down_at(y), start_share[static_cast<std::size_t>(y)]);
  return drive::to_values(sum);
}

std::vector<double> ExactDrives::situation_visits(const std::vector<double>& start_share) const {
  return drive::plays_by_situation(*solution_->table, solution_->policy, start_share);
}

std::vector<double> situation_visits(const DriveModel& model,
                                     const std::vector<double>& start_share) {
  const drive::Table& table = model.table();
  return drive::plays_by_situation(table, drive::policies_of(table), start_share);
}

std::vector<double> situation_visits(const DriveModel& model, const DriveState& from) {
  const drive::Table& table = model.table();
  return drive::plays_by_situation(table, drive::policies_of(table), from);
}

PointValues solve_points(const DriveModel& model, const SolveOptions& options) {
  PointValues out;
  out.points.assign(drive::field_length, 0.0);
  out.net_points.assign(drive::field_length, 0.0);
  const drive::Table& table = model.table();
  std::vector<drive::ClassPoints> solved = drive::solve_class_points(table, options);
  for (std::size_t k = 0; k < solved.size(); ++k) {
    const double weight = drive::class_weight(*table.plan, k);
    for (std::size_t y = 1; y < drive::field_length; ++y) {
      out.points[y] += weight * solved[k].first_and_ten[y][0];
      out.net_points[y] += weight * solved[k].first_and_ten[y][drive::net_index];
    }
    out.by_class.push_back(std::move(solved[k].first_and_ten));
  }
  return out;
}

double PointValues::points_over(const std::vector<double>& start_share) const {
  return drive::over(points, start_share);
}

double PointValues::net_over(const std::vector<double>& start_share) const {
  return drive::over(net_points, start_share);
}

}  // namespace callfit

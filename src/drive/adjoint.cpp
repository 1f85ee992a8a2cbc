#include <callfit/base/parallel.hpp>
#include <callfit/drive/adjoint.hpp>
#include <drive/call_places.hpp>
#include <drive/compile_gradient.hpp>
#include <drive/exact.hpp>
#include <drive/sweep.hpp>

#include <memory>
#include <numeric>

namespace callfit {
namespace drive {

struct Worth {
  std::shared_ptr<const Plan> plan;
  std::vector<TableGradient> by_class;
  FirstDownValues first_downs;
  Pair rest{};  ///< of the values, what is not in the sum of compile_gradient()
};

}  // namespace drive

namespace {

using drive::Plan;

struct SolvedStates {
  std::vector<std::vector<double>> values;  // [class][state_index * 2 + column]
  std::vector<drive::FourthDownPlan> policies;
};

SolvedStates solve_states(const drive::Table& table, const SolveOptions& options) {
  const Plan& plan = *table.plan;
  SolvedStates out;
  drive::for_each_class<2>(table, plan.point_rewards, drive::table_policies(table),
                           plan.options.policy,
                           [&](const auto& sweep, std::size_t, std::size_t lane) {
                             out.policies.push_back(sweep.policy(lane));
                             std::vector<double>& values = out.values.emplace_back();
                             values.reserve(drive::state_count * 2);
                             for (std::size_t state = 0; state < drive::state_count; ++state)
                               for (std::size_t c = 0; c < 2; ++c)
                                 values.push_back(sweep.value(state, c, lane));
                           },
                           {options.tolerance, options.near, options.most_to_go});
  return out;
}

struct Solved {
  SolvedStates states;
  std::vector<std::vector<double>> visits;  // [class][state_index]
};

// Where a table chooses on fourth down, how often states come up does not hang on what they are
// worth: both at once.
Solved solve_and_visit(const drive::Table& table, const std::vector<double>& start_share,
                       const WorthOptions& options) {
  Solved out;
  const auto visit = [&](const std::vector<drive::FourthDownPlan>& policies) {
    out.visits = drive::visits_of(table, policies, start_share, {0, options.left});
  };
  const bool is_by_table = table.plan->options.policy == FourthDownPolicy::table;
  for_each_unit(is_by_table ? 2 : 1, options.threads, [&](std::size_t unit) {
    if (unit == 0)
      out.states = solve_states(table, options.solve);
    else
      visit(drive::table_policies(table));
  });
  if (!is_by_table) visit(out.states.policies);
  return out;
}

std::vector<drive::Pair> at_first_downs(const std::vector<double>& values) {
  std::vector<drive::Pair> out(drive::field_length);
  for (int y = 1; y <= drive::last_spot; ++y)
    for (std::size_t c = 0; c < 2; ++c)
      out[static_cast<std::size_t>(y)][c] = values[drive::state_index(first_down_at(y)) * 2 + c];
  return out;
}

template <std::size_t K>
std::array<double, K> values_over(const drive::FirstDowns<K>& first_downs,
                                  const std::vector<double>& start_share) {
  std::array<double, K> sum{};
  for (std::size_t y = 1; y < first_downs.size(); ++y)
    for (std::size_t c = 0; c < sum.size(); ++c) sum[c] += start_share[y] * first_downs[y][c];
  return sum;
}

drive::FirstDowns<1> net_alone(const std::vector<drive::Pair>& first_downs) {
  drive::FirstDowns<1> out;
  out.reserve(first_downs.size());
  for (const drive::Pair& values : first_downs) out.push_back({values[drive::net_index]});
  return out;
}

std::shared_ptr<const drive::Worth> worth_of(const std::shared_ptr<const Plan>& plan,
                                             const drive::PlayedParts& parts,
                                             const std::vector<double>& start_share,
                                             const WorthOptions& options) {
  const drive::Table table = drive::compile(plan, parts);
  auto worth = std::make_shared<drive::Worth>();
  worth->plan = plan;
  const Solved solved = solve_and_visit(table, start_share, options);
  const SolvedStates& states = solved.states;
  worth->by_class.resize(solved.visits.size());
  for_each_unit(solved.visits.size(), options.threads, [&](std::size_t k) {
    worth->by_class[k] = drive::table_gradient(*plan, states.policies[k], states.values[k],
                                               solved.visits[k], drive::class_weight(*plan, k));
  });
  for (std::size_t k = 0; k < solved.visits.size(); ++k) {
    const double weight = drive::class_weight(*plan, k);
    worth->first_downs.push_back(at_first_downs(states.values[k]));
    const drive::Pair values = values_over(worth->first_downs[k], start_share);
    const drive::Pair summed = drive::value_in(*plan, table.classes[k], worth->by_class[k]);
    for (std::size_t c = 0; c < 2; ++c) worth->rest[c] += weight * values[c] - summed[c];
  }
  return worth;
}

PointGradients gradients_of(const drive::Worth& worth, const Player& player,
                            const drive::PlayedParts& parts, drive::By what = drive::By::all) {
  PointGradients out = drive::compile_gradient(*worth.plan, player, parts, worth.by_class, what);
  out.points.value += worth.rest[0];
  out.net_points.value += worth.rest[drive::net_index];
  return out;
}

}  // namespace

const FirstDownValues& OutcomeWorth::first_downs() const { return worth_->first_downs; }

OutcomeWorth outcome_worth(const DrivePlan& plan, const Player& player,
                           const std::vector<double>& start_share, const WorthOptions& options) {
  const drive::PlayedParts parts(plan.parts(), player, plan.parts().called);
  return OutcomeWorth(worth_of(plan.shared_parts(), parts, start_share, options));
}

PointGradients differentiate(const OutcomeWorth& worth, const Player& player) {
  const Plan& plan = *worth.worth().plan;
  return gradients_of(worth.worth(), player, drive::PlayedParts(plan, player, plan.all));
}

PointGradients differentiate_by_calls(const OutcomeWorth& worth, const Player& player) {
  const Plan& plan = *worth.worth().plan;
  const drive::PlayedParts parts(plan, player, plan.all);
  return gradients_of(worth.worth(), player, parts, drive::By::calls);
}

std::array<double, 2> values_beside(const OutcomeWorth& worth, const Player& player) {
  const drive::Worth& held = worth.worth();
  const drive::Table table = drive::compile(held.plan, player);
  std::array<double, 2> values = held.rest;
  for (std::size_t k = 0; k < table.classes.size(); ++k) {
    const drive::Pair own = drive::value_in(*held.plan, table.classes[k], held.by_class[k]);
    for (std::size_t c = 0; c < values.size(); ++c) values[c] += own[c];
  }
  return values;
}

std::size_t usual_class(const DrivePlan& plan) {
  std::size_t usual = 0;
  for (std::size_t k = 1; k < plan.parts().classes(); ++k)
    if (drive::class_weight(plan.parts(), k) > drive::class_weight(plan.parts(), usual)) usual = k;
  return usual;
}

PointGradients differentiate_in_class(const OutcomeWorth& worth, const Player& player,
                                      std::size_t quality, const std::vector<double>& start_share) {
  const Plan& plan = *worth.worth().plan;
  const drive::PlayedParts parts(plan, player, plan.all);
  const drive::TableGradient by =
      drive::scaled(worth.worth().by_class[quality], 1 / drive::class_weight(plan, quality));
  PointGradients out =
      drive::compile_gradient(plan, player, parts, {&by, 1}, drive::By::all, quality);
  const auto [points, net_points] = points_in_class(worth.first_downs(), quality, start_share);
  out.points.value = points;
  out.net_points.value = net_points;
  return out;
}

std::array<double, 2> points_in_class(const FirstDownValues& values, std::size_t quality,
                                      const std::vector<double>& start_share) {
  return values_over(values[quality], start_share);
}

std::vector<std::array<double, 2>> points_in_class(const DrivePlan& plan,
                                                   const std::vector<Player>& players,
                                                   std::size_t quality,
                                                   const std::vector<double>& start_share,
                                                   const SolveOptions& options) {
  SolveOptions own = options;
  FirstDownValues near;
  if (options.near != nullptr) {
    near.assign(players.size(), options.near->at(quality));
    own.near = &near;
  }
  drive::Table table{plan.shared_parts(), {}};
  for (const Player& player : players)
    table.classes.push_back(drive::compile_class(*table.plan, player, quality));
  std::vector<std::array<double, 2>> out;
  for (const drive::ClassPoints& points : drive::solve_class_points(table, own))
    out.push_back(values_over(points.first_and_ten, start_share));
  return out;
}

std::vector<double> net_points_of(const DrivePlan& plan, const std::vector<Player>& players,
                                  const std::vector<double>& start_share,
                                  const SolveOptions& options, unsigned threads) {
  const Plan& of = plan.parts();
  const drive::Rewards rewards = drive::make_rewards(of, {&of.net, 1});
  const std::size_t all = players.size() * of.classes();
  std::vector<double> in_class(all, 0.0);  // [player][class]
  const auto solve_from = [&](std::size_t first) {
    drive::Table table{plan.shared_parts(), {}};
    std::vector<drive::FirstDowns<1>> near;
    for (std::size_t i = first; i < std::min(first + drive::lane_count, all); ++i) {
      const std::size_t k = i % of.classes();
      table.classes.push_back(drive::compile_class(of, players[i / of.classes()], k));
      if (options.near != nullptr) near.push_back(net_alone(options.near->at(k)));
    }
    drive::for_each_class<1>(
        table, rewards, drive::table_policies(table), of.options.policy,
        [&](const auto& sweep, std::size_t i, std::size_t lane) {
          in_class[first + i] = values_over(drive::first_downs_of(sweep, lane), start_share)[0];
        },
        {options.tolerance, near.empty() ? nullptr : &near, options.most_to_go});
  };
  for_each_unit((all + drive::lane_count - 1) / drive::lane_count, threads,
                [&](std::size_t unit) { solve_from(unit * drive::lane_count); });
  std::vector<double> out(players.size(), 0.0);
  for (std::size_t i = 0; i < all; ++i)
    out[i / of.classes()] += drive::class_weight(of, i % of.classes()) * in_class[i];
  return out;
}

OwnWorth own_worth(const DrivePlan& plan, const Player& player,
                   const std::vector<double>& start_share, const WorthOptions& options) {
  const drive::PlayedParts parts(plan.parts(), player, plan.parts().all);
  OutcomeWorth outcomes(worth_of(plan.shared_parts(), parts, start_share, options));
  PointGradients gradients = gradients_of(outcomes.worth(), player, parts);
  return {std::move(outcomes), std::move(gradients)};
}

PointGradients differentiate(const DrivePlan& plan, const Player& player,
                             const std::vector<double>& start_share) {
  return own_worth(plan, player, start_share).gradients;
}

namespace {

int most_to_go(const Plan& plan, const std::vector<std::vector<double>>& visits) {
  constexpr double hardly_any = 1e-6;
  std::array<double, drive::field_length> by_to_go{};
  double all = 0;
  for (std::size_t k = 0; k < visits.size(); ++k)
    for (int down = 1; down <= drive::down_count; ++down)
      for (int line = 0; line < drive::line_count; ++line)
        for (int own = 1; own <= drive::spots_short_of(line); ++own) {
          const double share =
              drive::class_weight(plan, k) * visits[k][drive::state_index(down, line, own)];
          by_to_go[static_cast<std::size_t>(drive::field_length - own - line)] += share;
          all += share;
        }
  int most = drive::last_spot;
  for (double beyond = 0; most > drive::series_yards; --most)
    if ((beyond += by_to_go[static_cast<std::size_t>(most)]) > hardly_any * all) break;
  return most;
}

}  // namespace

DriveCounts counts_over(const DriveModel& model, const std::vector<double>& start_share,
                        double left) {
  const drive::Table& table = model.table();
  const Plan& plan = *table.plan;
  DriveCounts counts;
  counts.touchdowns.assign(drive::field_length, 0.0);
  std::vector<double> by_context(plan.contexts.size(), 0.0);
  const auto policies = drive::policies_of(table);
  const auto visits = drive::visits_of(table, policies, start_share, {0, left});
  counts.most_to_go = most_to_go(plan, visits);
  for (std::size_t k = 0; k < visits.size(); ++k) {
    std::vector<double> plays = drive::plays_by_row(plan, policies[k], visits[k]);
    for (std::size_t r = 0; r < plays.size(); ++r) {
      plays[r] *= drive::class_weight(plan, k);
      const drive::Row& row = plan.rows[r];
      by_context[row.context] += plays[r];
      counts.touchdowns[static_cast<std::size_t>(row.yards_to_goal)] +=
          plays[r] * table.classes[k].touchdown[r];
    }
  }
  counts.places = drive::call_places(plan, by_context);
  counts.calls = call_shares(plan.scheme, counts.places);
  const double plays = std::accumulate(by_context.begin(), by_context.end(), 0.0);
  for (double& calls : counts.calls) calls *= plays;
  return counts;
}

}  // namespace callfit

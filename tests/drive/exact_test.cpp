#include "chain.hpp"
#include "fixture.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <utility>

using namespace callfit;

namespace {

Eigen::SparseMatrix<double> sparse(const Eigen::MatrixXd& dense) { return dense.sparseView(); }

double largest_difference(const DriveValues& values, const Eigen::VectorXd& row) {
  double most = std::max(std::abs(values.points - row(0)), std::abs(values.net_points - row(1)));
  for (std::size_t r = 0; r < drive_result_count; ++r)
    most = std::max(most, std::abs(values.share[r] - row(2 + static_cast<int>(r))));
  return std::max({most, std::abs(values.first_downs - row(11)), std::abs(values.plays - row(12))});
}

// Every state of a drive against values of the same table by another way.
double worst_against(const ExactDrives& exact, const Eigen::MatrixXd& values) {
  double worst = 0;
  for (int down = 1; down <= 4; ++down)
    for (int y = 1; y <= 99; ++y)
      for (int to_go = 1; to_go <= y; ++to_go) {
        const DriveState state{down, to_go, y};
        const auto row = static_cast<Eigen::Index>(drive::state_index(state));
        worst = std::max(worst, largest_difference(exact.at(state), values.row(row)));
      }
  return worst;
}

// The exact values of one quality class as a matrix.
Eigen::MatrixXd as_matrix(const ExactDrives& exact) {
  Eigen::MatrixXd values(drive::state_count, drive::full_columns);
  for (int down = 1; down <= 4; ++down)
    for (int y = 1; y <= 99; ++y)
      for (int to_go = 1; to_go <= y; ++to_go) {
        const DriveState state{down, to_go, y};
        const DriveValues v = exact.at(state);
        auto row = values.row(static_cast<Eigen::Index>(drive::state_index(state)));
        row(0) = v.points;
        row(1) = v.net_points;
        for (std::size_t r = 0; r < drive_result_count; ++r)
          row(2 + static_cast<int>(r)) = v.share[r];
        row(11) = v.first_downs;
        row(12) = v.plays;
      }
  return values;
}

// How far the values are from solving x = Q x + r. The error itself is at most this times the
// longest expected number of steps, which is below 30 here (asserted).
double residual(const DriveModel& model) {
  const drive::Table& table = model.table();
  REQUIRE(table.classes.size() == 1);
  const auto chain = chain::list_outcomes(table, 0, drive::policies_of(table)[0]);
  const Eigen::MatrixXd x = as_matrix(solve(model));
  REQUIRE(x.col(12).maxCoeff() < 30);
  return (chain.q * x + chain.r - x).cwiseAbs().maxCoeff();
}

// Sweeps, then both columns of all states, lane by lane.
template <class Lanes>
std::vector<double> lane_values(const drive::Table& table, FourthDownPolicy policy) {
  drive::Sweep<2, Lanes> sweep(table, 0, table.plan->point_rewards, drive::table_policies(table));
  if (policy == FourthDownPolicy::best) sweep.maximise_net();
  sweep.solve(drive::full_tolerance);
  std::vector<double> values{static_cast<double>(sweep.sweeps())};
  for (std::size_t lane = 0; lane < table.classes.size(); ++lane)
    for (std::size_t state = 0; state < drive::state_count; ++state)
      for (std::size_t column = 0; column < 2; ++column)
        values.push_back(sweep.value(state, column, lane));
  return values;
}

}  // namespace

// Grinstead & Snell, Introduction to Probability, examples 11.13 to 11.15: the drunkard's walk on
// 0 to 4. Fundamental matrix N, expected steps t, absorption B.
TEST_CASE("absorbing chains are solved as in the drunkard's walk") {
  Eigen::MatrixXd q = Eigen::MatrixXd::Zero(3, 3);
  q << 0, .5, 0, .5, 0, .5, 0, .5, 0;
  Eigen::MatrixXd r(3, 6);
  r << 1, 0, 0, 1, .5, 0,  //
      0, 1, 0, 1, 0, 0,    //
      0, 0, 1, 1, 0, .5;
  Eigen::MatrixXd expected(3, 6);
  expected << 1.5, 1, .5, 3, .75, .25,  //
      1, 2, 1, 4, .5, .5,               //
      .5, 1, 1.5, 3, .25, .75;
  CHECK((chain::absorbing_values(sparse(q), r) - expected).cwiseAbs().maxCoeff() < 1e-14);

  q << 0, 2. / 3, 0, 1. / 3, 0, 2. / 3, 0, 1. / 3, 0;
  r.col(4) << 1. / 3, 0, 0;
  r.col(5) << 0, 0, 2. / 3;
  expected << 1.4, 1.2, .8, 3.4, 7. / 15, 8. / 15,  //
      .6, 1.8, 1.2, 3.6, .2, .8,                    //
      .2, .6, 1.4, 2.2, 1. / 15, 14. / 15;
  CHECK((chain::absorbing_values(sparse(q), r) - expected).cwiseAbs().maxCoeff() < 1e-14);
}

TEST_CASE("the sweep agrees with a sparse solve of the same table in every state", "[plain]") {
  const DriveModel model = fixture::game().model();
  const drive::Table& table = model.table();
  Eigen::MatrixXd mean = Eigen::MatrixXd::Zero(drive::state_count, drive::full_columns);
  for (std::size_t k = 0; k < table.classes.size(); ++k) {
    const auto chain = chain::list_outcomes(table, k, drive::table_policy(*table.plan));
    mean += drive::class_weight(*table.plan, k) * chain::absorbing_values(chain.q, chain.r);
  }
  CHECK(worst_against(solve(model), mean) < 1e-11);
}

TEST_CASE("the sweep solves shaken settings, other policies and halves that end") {
  CHECK(residual(fixture::random_game(1).model()) < 1e-11);
  CHECK(residual(fixture::random_game(2, {FourthDownPolicy::best, false}).model()) < 1e-11);
  CHECK(residual(fixture::random_game(3, {FourthDownPolicy::table, true}).model()) < 1e-11);
}

TEST_CASE("every row of the table and every listed step sums to one") {
  const DriveModel model = fixture::game().model();
  const drive::Table& table = model.table();
  const drive::Plan& plan = *table.plan;
  for (const drive::ClassTable& outcomes : table.classes)
    for (std::size_t r = 0; r < plan.rows.size(); ++r) {
      const drive::Row& row = plan.rows[r];
      double sum = outcomes.touchdown[r];
      for (std::size_t f = 0; f < table.families(); ++f)
        sum += outcomes.interception[row.context * table.families() + f];
      for (int g = plan.first_gain; g < row.yards_to_goal; ++g) {
        const std::size_t at =
            plan.layout.of_row(r).offset + static_cast<std::size_t>(g - plan.first_gain);
        REQUIRE(outcomes.keep[at] >= 0);
        REQUIRE(outcomes.fumble[at] >= 0);
        sum += outcomes.keep[at] + outcomes.fumble[at];
      }
      REQUIRE(std::abs(sum - 1) < 1e-13);
    }
  const auto policy = drive::table_policy(plan);
  for (std::size_t k = 0; k < table.classes.size(); ++k) {
    const auto chain = chain::list_outcomes(table, k, policy);
    const Eigen::VectorXd stays = chain.q * Eigen::VectorXd::Ones(chain.q.cols());
    CHECK((stays + chain.leaves - Eigen::VectorXd::Ones(chain.q.rows())).cwiseAbs().maxCoeff() <
          1e-12);
  }
}

// Registers of either width do the arithmetic of plain doubles, so not a bit may differ.
TEST_CASE("wide registers give the bits of narrow ones, lane by lane") {
  if (!wide_vectors_run()) return;  // the processor has none
  for (const FourthDownPolicy policy : {FourthDownPolicy::table, FourthDownPolicy::best}) {
    const DriveModel model = fixture::game({policy, true}).model();
    const drive::Table& table = model.table();
    REQUIRE(table.classes.size() > 1);
    REQUIRE(table.classes.size() <= drive::lane_count);
    const auto narrow = lane_values<drive::NarrowLanes>(table, policy);
    CHECK(narrow == lane_values<drive::WideLanes>(table, policy));
    // The lanes are those of different classes.
    const std::size_t lane = 2 * drive::state_count;
    CHECK_FALSE(
        std::equal(narrow.begin() + 1, narrow.begin() + 1 + lane, narrow.begin() + 1 + lane));
  }
}

TEST_CASE("results pushed forward are those of the full solution") {
  for (const DriveOptions& options :
       {DriveOptions{FourthDownPolicy::table, false}, DriveOptions{FourthDownPolicy::best, false},
        DriveOptions{FourthDownPolicy::table, true}}) {
    const auto game = fixture::random_game(4, options);
    const DriveModel model = game.model();
    const std::vector<double> starts = start_shares(game.setting);
    const DriveValues solved = solve(model).over(starts);
    const DriveFlow flow = flow_over(model, starts);
    const auto& share = flow.share;
    for (std::size_t r = 0; r < drive_result_count; ++r)
      CHECK(std::abs(share[r] - solved.share[r]) < 1e-11);
    CHECK(flow.first_downs == Approx(solved.first_downs).epsilon(1e-11));
    CHECK(flow.plays == Approx(solved.plays).epsilon(1e-11));
  }
}

TEST_CASE("points alone are those of the full solution") {
  for (const auto policy : {FourthDownPolicy::table, FourthDownPolicy::best}) {
    const DriveModel model = fixture::game({policy, false}).model();
    const ExactDrives exact = solve(model);
    const PointValues points = solve_points(model);
    for (int y = 1; y <= 99; ++y) {
      const auto i = static_cast<std::size_t>(y);
      CHECK(points.points[i] == Approx(exact.at(first_down_at(y)).points).margin(1e-11));
      CHECK(points.net_points[i] == Approx(exact.at(first_down_at(y)).net_points).margin(1e-11));
    }
  }
}

TEST_CASE("solving from the values of a like model gives its own values, for fewer sweeps") {
  for (const auto policy : {FourthDownPolicy::table, FourthDownPolicy::best}) {
    const auto game = fixture::random_game(9, {policy, false});
    const DriveModel model = game.model();
    fixture::Game other = game;
    for (PlayerFamily& family : other.player.families)
      for (auto& cell : family.cell) cell[static_cast<std::size_t>(Rate::completion)] *= 1.02;
    const PointValues near = solve_points(other.model());
    const PointValues cold = solve_points(model);
    CHECK(near.net_points[75] != Approx(cold.net_points[75]).margin(1e-4));
    const auto sweeps = [&](const SolveOptions& options) {
      return drive::solve_class_points(model.table(), options).front().sweeps;
    };
    int warm_sweeps = 0;
    int cold_sweeps = 0;
    for (const double tolerance : {1e-6, 1e-9, 1e-13}) {
      const PointValues warm = solve_points(model, {tolerance, &near.by_class});
      for (std::size_t y = 1; y <= 99; ++y) {  // the cold one may be off too
        CHECK(std::abs(warm.points[y] - cold.points[y]) < tolerance + 1e-13);
        CHECK(std::abs(warm.net_points[y] - cold.net_points[y]) < tolerance + 1e-13);
      }
      warm_sweeps += sweeps({tolerance, &near.by_class});
      cold_sweeps += sweeps({tolerance, nullptr});
    }
    CHECK(warm_sweeps < cold_sweeps);
  }
  const DriveModel model = fixture::game().model();
  const PointValues none;
  CHECK_THROWS_AS(solve_points(model, {1e-9, &none.by_class}), std::invalid_argument);
}

// Every carry gains 10, so from first and ten it just reaches the line, and with chance s it is
// spotted a yard short: second and one, from where a carry goes 9 beyond the line. The goal line is
// another matter. From the 20 to the 10 and in: 2 carries, or to the 11, the 1 and in: 3. From the
// 11 to the 1 or the 2, and in. From the 30 to the 20, or to the 21 and the 11:
//   carries (1 - s) (1 + 2 + s) + s (2 + 2) = 3 + 2 s - s^2
//   first downs (1 - s) 2 + s (1 + 1 - s) = 2 - s^2
TEST_CASE("a gain that just reaches the line may be spotted short of it, worked out by hand") {
  constexpr double s = 0.25;
  Setting setting = fixture::bare_setting({10, {1}});
  setting.spotted_short = s;
  const NetValues net{std::vector<double>(100, 0.0), 0, 0, 0};
  const ExactDrives exact =
      solve(compile_drives(average_player(setting), fixture::bare_scheme(), {0}, setting, net));
  CHECK(exact.at(first_down_at(10)).plays == Approx(1).epsilon(1e-14));
  CHECK(exact.at(first_down_at(20)).plays == Approx(2 + s).epsilon(1e-14));
  const DriveValues values = exact.at(first_down_at(30));
  CHECK(values.plays == Approx(3 + 2 * s - s * s).epsilon(1e-14));
  CHECK(values.first_downs == Approx(2 - s * s).epsilon(1e-14));
  CHECK(values.share_of(DriveResult::touchdown) == Approx(1).epsilon(1e-14));
  CHECK(exact.at({4, 10, 30}).share_of(DriveResult::downs) == Approx(s).epsilon(1e-14));
}

// Every carry gains 10, so from the 10 it just reaches the goal line, and with chance s the ball is
// spotted on the 1, from where the next carry scores: second and goal, on fourth down the other
// team's ball, and first and goal where the line to gain was nearer. From the 20 there is a carry
// more before. A carry from the 9 and nearer goes beyond.
TEST_CASE("a gain that just reaches the goal line may be spotted on the 1, worked out by hand") {
  constexpr double s = 0.25;
  Setting setting = fixture::bare_setting({10, {1}});
  setting.spotted_at_goal = s;
  const NetValues net{std::vector<double>(100, 0.0), 0, 0, 0};
  const DriveModel model =
      compile_drives(average_player(setting), fixture::bare_scheme(), {0}, setting, net);
  const ExactDrives exact = solve(model);
  CHECK(exact.at(first_down_at(9)).plays == Approx(1).epsilon(1e-14));
  CHECK(exact.at(first_down_at(10)).plays == Approx(1 + s).epsilon(1e-14));
  CHECK(exact.at(first_down_at(10)).first_downs == Approx(0).margin(1e-14));
  CHECK(exact.at(first_down_at(20)).plays == Approx(2 + s).epsilon(1e-14));
  CHECK(exact.at({1, 5, 10}).first_downs == Approx(s).epsilon(1e-14));
  CHECK(exact.at({4, 10, 10}).share_of(DriveResult::downs) == Approx(s).epsilon(1e-14));
  CHECK(exact.at({4, 10, 10}).share_of(DriveResult::touchdown) == Approx(1 - s).epsilon(1e-14));
}

// Every carry loses 1, nobody kicks, and of those that end behind the own goal line the share s is
// a safety, the rest lies on the 1. From the own 1 four carries are left, each of which ends there:
// the k-th is made with chance (1 - s)^(k - 1), and who is kept out four times is short on fourth
// down. From the own 3 the first two lose a yard each and two are left.
TEST_CASE("a gain behind the own goal line is a safety or lies on the 1, worked out by hand") {
  constexpr double s = 0.4;
  Setting setting = fixture::bare_setting({-1, {1}});
  setting.own_goal = {{{97, 99}, s}};
  const NetValues net{std::vector<double>(100, 0.0), 0, 0, 0};
  const DriveModel model =
      compile_drives(average_player(setting), fixture::bare_scheme(), {0}, setting, net);
  const ExactDrives exact = solve(model);
  for (const auto& [yards_to_goal, left] : {std::pair{99, 4}, std::pair{97, 2}}) {
    const DriveValues values = exact.at(first_down_at(yards_to_goal));
    const double kept_out = std::pow(1 - s, left);
    CAPTURE(yards_to_goal);
    CHECK(values.share_of(DriveResult::safety) == Approx(1 - kept_out).epsilon(1e-14));
    CHECK(values.share_of(DriveResult::downs) == Approx(kept_out).epsilon(1e-14));
    CHECK(values.plays == Approx(4 - left + (1 - kept_out) / s).epsilon(1e-14));
  }
}

// A field of two plays. Every carry gains 1 (chance p) or 4 yards (chance q = 1 - p), nothing else
// can happen, and nobody ever kicks. Goal to go from the 4 in four downs: one carry of 4 scores at
// once; else the ball moves 1 yard a carry, and four carries of 1 score too. So first and goal at
// the 4 always scores: after carries of 1, 1, 1 the ball is on the 1 with fourth down, and any
// carry scores. Expected carries: 1 + p + p^2 + p^3.
// First and ten at the 20: the carries are independent, four of them gain 4k + (4 - k) = 4 + 3k
// yards when k of them gain 4, and the line is made as soon as the sum reaches 10. With four
// carries 10 is reached if and only if k >= 2, which needs 3 carries when all of the first three
// gain 4 (12 yards). Series that fail (k <= 1): p^4 + 4 p^3 q. With p = q = 1/2 a series fails
// with 1/16 + 4/16 = 5/16. Gains of a successful series: 12 in three carries (chance 1/8, the 8),
// or k = 2 in four carries, 10 yards (6 orders/16, the 10), or k = 3 in four carries without the
// first three all 4s, 13 yards (3 orders/16: the 1 among the first three; the 7): 2/16 + 6/16 +
// 3/16 = 11/16. From the 10, 8 or 7 it is goal to go:
//   the 7 in four carries: needs k >= 1 (4 + 3k >= 7): fails with p^4 = 1/16 -> 15/16
//   the 8: needs k >= 2: 11/16.  the 10: needs k >= 2: 11/16.
// Touchdown from first and ten at the 20 = 2/16 * 11/16 + 6/16 * 11/16 + 3/16 * 15/16
//   = (22 + 66 + 45) / 256 = 133/256.
TEST_CASE("a field of two plays gives the values worked out by hand") {
  const Setting setting = fixture::bare_setting({1, {0.5, 0, 0, 0.5}});
  const Scheme scheme = fixture::bare_scheme();
  NetValues net{std::vector<double>(100, 0.0), 0, 0, 0};
  Player player = average_player(setting);
  const ExactDrives exact = solve(compile_drives(player, scheme, {0}, setting, net));

  const DriveValues goal = exact.at(first_down_at(4));
  CHECK(goal.share_of(DriveResult::touchdown) == Approx(1).epsilon(1e-14));
  CHECK(goal.plays == Approx(1 + 0.5 + 0.25 + 0.125).epsilon(1e-14));
  CHECK(exact.at(first_down_at(7)).share_of(DriveResult::touchdown) == Approx(15. / 16));
  CHECK(exact.at(first_down_at(8)).share_of(DriveResult::touchdown) == Approx(11. / 16));
  CHECK(exact.at(first_down_at(10)).share_of(DriveResult::touchdown) == Approx(11. / 16));

  const DriveValues values = exact.at(first_down_at(20));
  CHECK(values.share_of(DriveResult::touchdown) == Approx(133. / 256).epsilon(1e-14));
  CHECK(values.share_of(DriveResult::downs) == Approx(123. / 256).epsilon(1e-14));
  CHECK(values.first_downs == Approx(11. / 16).epsilon(1e-14));
  CHECK(values.points == Approx(133. / 256 * 6.94).epsilon(1e-14));
}

// What must hold whatever the numbers are.
#include "fixture.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/drive/signature.hpp>
#include <drive/exact.hpp>

#include <Eigen/LU>
#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>
#include <numeric>

using namespace callfit;

namespace {

double net_over_starts(const fixture::Game& game) {
  return solve_points(game.model()).net_over(start_shares(game.setting));
}

// Moves a rate of every family, in every cell, by `by` on the log-odds scale.
fixture::Game with_rate(fixture::Game game, Rate rate, double by) {
  const auto moved = [by](double p) { return p / (p + (1 - p) * std::exp(-by)); };
  const auto r = static_cast<std::size_t>(rate);
  for (PlayerFamily& family : game.player.families) {
    family.rate[r] = moved(family.rate[r]);
    for (auto& cell : family.cell) cell[r] = moved(cell[r]);
  }
  return game;
}

}  // namespace

TEST_CASE("random settings and players give finite values that add up") {
  for (std::uint32_t seed = 10; seed < 13; ++seed) {
    const ExactDrives exact = solve(fixture::random_game(seed).model());
    for (int down = 1; down <= 4; ++down)
      for (int y = 1; y <= 99; y += 7)
        for (int to_go = 1; to_go <= y; to_go += 5) {
          const DriveValues values = exact.at({down, to_go, y});
          const double sum = std::accumulate(values.share.begin(), values.share.end(), 0.0);
          CHECK(sum == Approx(1).epsilon(1e-11));
          CHECK(std::isfinite(values.net_points));
          CHECK((values.points >= 0 && values.points <= 6.94));
          CHECK((values.plays >= 0 && values.first_downs >= 0));
        }
  }
}

namespace {

// First and ten at the 11 can be worth more than first and goal at the 10: only from the 11 can
// gains short of the goal bring a new series. Elsewhere nearer is better.
constexpr std::size_t first_goal_to_go = 10;

bool rises_toward_goal(const std::vector<double>& by_yards_to_goal) {
  for (std::size_t y = 2; y <= 99; ++y)
    if (y != first_goal_to_go + 1 && by_yards_to_goal[y] >= by_yards_to_goal[y - 1]) return false;
  return true;
}

}  // namespace

TEST_CASE("points rise toward the goal") {
  const PointValues values = solve_points(fixture::game().model());
  CHECK(rises_toward_goal(values.net_points));
  CHECK(rises_toward_goal(values.points));
}

TEST_CASE("better rates never cost points") {
  const fixture::Game game = fixture::game();
  const double before = net_over_starts(game);
  CHECK(net_over_starts(with_rate(game, Rate::completion, 0.2)) > before);
  CHECK(net_over_starts(with_rate(game, Rate::interception, -0.2)) > before);
  CHECK(net_over_starts(with_rate(game, Rate::sack, -0.2)) > before);
  CHECK(net_over_starts(with_rate(game, Rate::fumble, -0.2)) > before);
}

TEST_CASE("the best fourth-down choice is never below any fixed policy") {
  fixture::Game game = fixture::random_game(21);
  const auto net_of = [&game](FourthDownPolicy policy) {
    game.options.policy = policy;
    return solve_points(game.model()).net_points;
  };
  const std::vector<double> best = net_of(FourthDownPolicy::best);
  const auto not_above_best = [&best](const std::vector<double>& net) {
    for (std::size_t y = 1; y <= 99; ++y)
      if (net[y] > best[y] + 1e-12) return false;
    return true;
  };
  CHECK(not_above_best(net_of(FourthDownPolicy::table)));
  for (const auto& [go, punt, kick] : {std::array{1., 0., 0.}, {0., 1., 0.}, {0., 0., 1.}}) {
    game.setting.fourth_down = {{{}, go, punt, kick}};
    CHECK(not_above_best(net_of(FourthDownPolicy::table)));
  }
}

// W is a fixed point: the average offence, valued against W, is worth W.
TEST_CASE("the opponent's values are those of the same offence") {
  const auto [setting, scheme, net, player, options] = fixture::game();
  const PointValues values = solve_points(
      compile_drives(average_player(setting), scheme, fixture::families(), setting, net));
  for (std::size_t y = 1; y <= 99; ++y)
    CHECK(values.net_points[y] == Approx(net.first_and_ten[y]).margin(1e-10));
  double kickoff = 0;
  const Kickoff& kick = setting.kickoff;
  for (int own = kick.own_yard.first; own <= kick.own_yard.last(); ++own)
    kickoff += kick.own_yard.at(own) * net.first_and_ten[static_cast<std::size_t>(100 - own)];
  const double td = setting.rules.touchdown + setting.rules.try_mean;
  CHECK(net.after_kickoff == Approx((1 - kick.return_touchdown) * kickoff +
                                    kick.return_touchdown * (td - net.after_kickoff)));
}

// The chance of each spot where a possession of the other team begins after a drive, a column at a
// time, and the linear system of all of them.
TEST_CASE("net values solve the linear system of possessions") {
  const Setting setting = fixture::setting();
  const Scheme scheme = fixture::scheme();
  const NetValues zero{std::vector<double>(100, 0.0), 0, 0, 0};
  const DriveModel model =
      compile_drives(average_player(setting), scheme, fixture::families(), setting, zero);
  const auto policies = drive::table_policies(model.table());
  const auto column = [&](const drive::Column& wanted) {
    const auto values = drive::first_and_ten(model.table(), policies, wanted);
    return Eigen::VectorXd(Eigen::Map<const Eigen::VectorXd>(values.data() + 1, 99));
  };
  const auto slot = [&](drive::Slot s) { return column(drive::slot_column(s)); };
  const auto weights = [](const YardPmf& own_yard) {
    Eigen::RowVectorXd sum = Eigen::RowVectorXd::Zero(99);
    for (int own = own_yard.first; own <= own_yard.last(); ++own)
      sum(std::clamp(100 - own, 1, 99) - 1) += own_yard.at(own);
    return sum;
  };
  const double td = setting.rules.touchdown + setting.rules.try_mean;
  const double r = setting.kickoff.return_touchdown;
  const Eigen::RowVectorXd kickoff = weights(setting.kickoff.own_yard) * ((1 - r) / (1 + r));
  const Eigen::VectorXd returned = slot(drive::return_score_slot);
  const Eigen::VectorXd to_kickoff = slot(drive::kickoff_slot) - returned;
  const Eigen::VectorXd safety = column(drive::share_column(DriveResult::safety));
  Eigen::MatrixXd system = Eigen::MatrixXd::Identity(99, 99) + to_kickoff * kickoff +
                           safety * weights(setting.rules.safety_kick_start);
  for (int own = 1; own <= 99; ++own) system.col(99 - own) += slot(static_cast<drive::Slot>(own));
  const Eigen::VectorXd constant = column(drive::points_column(setting.rules)) - td * returned -
                                   setting.rules.safety * safety - r * td / (1 + r) * to_kickoff;
  const Eigen::VectorXd expected = system.partialPivLu().solve(constant);
  const NetValues net = average_net_values(setting, scheme);
  for (int y = 1; y <= 99; ++y)
    CHECK(std::abs(net.first_and_ten[static_cast<std::size_t>(y)] - expected(y - 1)) < 1e-10);
}

// The share is the invented setting's.
TEST_CASE("the half cuts off the setting's share of average drives") {
  const fixture::Game game = fixture::game({FourthDownPolicy::table, true});
  const DriveValues values = solve(game.model()).over(start_shares(game.setting));
  CHECK(values.share_of(DriveResult::end_of_half) == Approx(0.06).margin(1e-8));
}

// A touchdown's 6 points and the invented setting's .94 a try.
TEST_CASE("next-score points lie between a touchdown either way and rise toward the goal") {
  const std::vector<double> points =
      next_score_points(fixture::setting(), fixture::scheme(), false);
  CHECK(rises_toward_goal(points));
  for (const double value : points) CHECK(std::abs(value) < 6.94);
}

TEST_CASE("situations come up as often as plays are run") {
  const fixture::Game game = fixture::game();
  const ExactDrives exact = solve(game.model());
  const std::vector<double> starts = start_shares(game.setting);
  const std::vector<double> visits = exact.situation_visits(starts);
  const double calls = std::accumulate(visits.begin(), visits.end(), 0.0);
  // Penalties that use up the down count as plays without a call.
  CHECK(calls < exact.over(starts).plays);
  CHECK(calls == Approx(exact.over(starts).plays).epsilon(0.01));
  // From one state too; at first and ten it is a drive that starts there.
  std::vector<double> at_midfield(100, 0.0);
  at_midfield[50] = 1;
  const std::vector<double> from_there = situation_visits(game.model(), first_down_at(50));
  const std::vector<double> started = exact.situation_visits(at_midfield);
  for (std::size_t s = 0; s < started.size(); ++s)
    CHECK(from_there[s] == Approx(started[s]).epsilon(1e-9));
  const DriveState third{3, 7, 60};
  const std::vector<double> late = situation_visits(game.model(), third);
  const double late_calls = std::accumulate(late.begin(), late.end(), 0.0);
  CHECK(late_calls < exact.at(third).plays);
  CHECK(late_calls > 0.98 * exact.at(third).plays);
}

TEST_CASE("a state without a rule is told") {
  const Setting setting = fixture::setting();
  Scheme scheme = fixture::scheme();
  scheme.situations.pop_back();
  const NetValues net{std::vector<double>(100, 0.0), 0, 0, 0};
  CHECK_THROWS_AS(DrivePlan(scheme, fixture::families(), setting, net), InputError);
  scheme = fixture::scheme();
  scheme.families[0].like = "unheard";
  CHECK_THROWS_AS(average_net_values(setting, scheme), InputError);
}

// tests/drive/signature.txt changes only together with the model; say why in the commit.
TEST_CASE("the signature is the committed one") {
  std::ifstream file(CALLFIT_SIGNATURE_FILE);
  REQUIRE(file);
  std::uint64_t sampled = 0;
  std::uint64_t exact = 0;
  file >> std::hex >> sampled >> exact;
  const fixture::Game game = fixture::game();
  const std::vector<double> starts = start_shares(game.setting);
  for (unsigned threads : {1U, 3U}) {
    const DriveSignature signature = signature_of(game.model(), starts, {1, 50'000, threads});
    INFO(std::hex << signature.sampled << ' ' << signature.exact);
    CHECK(signature.sampled == sampled);
    CHECK(signature.exact == exact);
  }
}

// The reverse sweep against central differences of the forward engine.
#include "../support/repeats.hpp"
#include "fixture.hpp"

#include <callfit/drive/adjoint.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>

namespace {

using namespace fixture;

struct DrivePoints {
  double points = 0, net = 0;
};

struct Subject {
  Game game;
  std::vector<double> starts;
  PointGradients gradient;

  explicit Subject(std::uint32_t seed, DriveOptions options = {})
      : game(random_game(seed, options)), starts(start_shares(game.setting)) {
    const DrivePlan plan(game.scheme, families(), game.setting, game.net, game.options);
    gradient = differentiate(plan, game.player, starts);
  }
  DrivePoints values(const Game& of) const {
    const PointValues solved = solve_points(of.model());
    return {solved.points_over(starts), solved.net_over(starts)};
  }
};

using Turn = std::function<void(Game&, double)>;

// The engine is smooth and solved to 1e-12: with steps of 2e-3 both the truncation error of this
// fourth-order difference and the rounding stay near 1e-9.
DrivePoints slope(const Subject& subject, const Turn& turn) {
  constexpr double step = 2e-3;
  const auto at = [&](double h) {
    Game game = subject.game;
    turn(game, h);
    return subject.values(game);
  };
  const DrivePoints far_up = at(2 * step);
  const DrivePoints up = at(step);
  const DrivePoints down = at(-step);
  const DrivePoints far_down = at(-2 * step);
  const auto difference = [](double a, double b, double c, double d) {
    return (8 * (b - c) - (a - d)) / (12 * step);
  };
  return {difference(far_up.points, up.points, down.points, far_down.points),
          difference(far_up.net, up.net, down.net, far_down.net)};
}

void agrees(const Subject& subject, const std::string& name, double points, double net,
            const Turn& turn) {
  INFO(name);
  const DrivePoints expected = slope(subject, turn);
  CHECK_THAT(points,
             Catch::WithinRel(expected.points, 1e-6) || Catch::WithinAbs(expected.points, 1e-8));
  CHECK_THAT(net, Catch::WithinRel(expected.net, 1e-6) || Catch::WithinAbs(expected.net, 1e-8));
}

constexpr std::array played{Rate::sack, Rate::scramble, Rate::completion, Rate::interception,
                            Rate::fumble};

void check_rates(const Subject& subject, std::size_t f) {
  const auto& points = subject.gradient.points.families[f];
  const auto& net = subject.gradient.net_points.families[f];
  for (const Rate rate : played) {
    const auto r = static_cast<std::size_t>(rate);
    // Small rates move by little; the turn is scaled, and the derivative with it.
    const double scale = std::max(subject.game.player.families[f].rate[r], 1e-3);
    agrees(subject, std::to_string(f) + std::string(word(rate)), points.rate[r] * scale,
           net.rate[r] * scale,
           [f, r, scale](Game& game, double h) { game.player.families[f].rate[r] += h * scale; });
    for (std::size_t s = 0; s < shell_count; ++s)
      agrees(subject, std::to_string(f) + std::string(word(rate)) + std::to_string(s),
             points.shell[s][r] * scale, net.shell[s][r] * scale,
             [f, r, s, scale](Game& game, double h) {
               game.player.families[f].cell[s][r] += h * scale;
             });
  }
}

using Bins = std::vector<double>& (*)(Player&, std::size_t);

// Bins move against each other, so that they still sum to 1.
void check_bins(const Subject& subject, const std::string& name, std::size_t f, Bins bins,
                const std::vector<double>& points, const std::vector<double>& net) {
  Player player = subject.game.player;
  const std::vector<double> now = bins(player, f);
  REQUIRE(points.size() == now.size());
  for (std::size_t b = 0; b + 1 < now.size(); ++b) {
    const double scale = std::min(now[b], now[b + 1]);
    if (scale < 1e-6) continue;
    agrees(subject, name + std::to_string(b), scale * (points[b + 1] - points[b]),
           scale * (net[b + 1] - net[b]), [f, b, scale, bins](Game& game, double h) {
             bins(game.player, f)[b] -= h * scale;
             bins(game.player, f)[b + 1] += h * scale;
           });
  }
}

unsigned random_games(std::size_t full) { return static_cast<unsigned>(testing::repeats(full)); }

}  // namespace

TEST_CASE("adjoint equals central differences over random profiles", "[plain]") {
  const auto seed = GENERATE(range(1U, 1U + random_games(3)));
  const Subject subject(seed);
  const DrivePoints values = subject.values(subject.game);
  CHECK_THAT(subject.gradient.points.value, Catch::WithinAbs(values.points, 1e-12));
  CHECK_THAT(subject.gradient.net_points.value, Catch::WithinAbs(values.net, 1e-12));
  for (std::size_t f = 0; f < subject.game.setting.families.size(); ++f) check_rates(subject, f);

  const DriveGradient& points = subject.gradient.points;
  const DriveGradient& net = subject.gradient.net_points;
  check_bins(
      subject, "scramble", 0, [](Player & p, std::size_t) -> auto& { return p.scramble_bins; },
      points.scramble_bins, net.scramble_bins);
  check_bins(
      subject, "sack", 0, [](Player & p, std::size_t) -> auto& { return p.sack_bins; },
      points.sack_bins, net.sack_bins);
  for (std::size_t f : {0U, 1U}) {
    check_bins(
        subject, "depth", f,
        [](Player & p, std::size_t i) -> auto& { return p.families[i].depth_bins; },
        points.families[f].depth_bins, net.families[f].depth_bins);
    check_bins(
        subject, "yac", f,
        [](Player & p, std::size_t i) -> auto& { return p.families[i].yac_bins; },
        points.families[f].yac_bins, net.families[f].yac_bins);
  }
  for (std::size_t f : {2U, 3U})
    check_bins(
        subject, "run", f,
        [](Player & p, std::size_t i) -> auto& { return p.families[i].run_bins; },
        points.families[f].run_bins, net.families[f].run_bins);
}

TEST_CASE("adjoint of call shares, called or not") {
  const auto seed = GENERATE(range(11U, 11U + random_games(2)));
  Subject subject(seed);
  const Scheme& scheme = subject.game.scheme;
  for (std::size_t s = 0; s < scheme.situations.size(); ++s)
    for (std::size_t shell = 0; shell < shell_count; ++shell)
      for (std::size_t f = 1; f < scheme.families.size(); ++f) {
        const auto& points = subject.gradient.points.call[s][shell];
        const auto& net = subject.gradient.net_points.call[s][shell];
        agrees(subject, "call " + std::to_string(s) + std::to_string(shell) + std::to_string(f),
               points[f] - points[0], net[f] - net[0], [s, shell, f](Game& game, double h) {
                 CallSituation& situation = game.scheme.situations[s];
                 auto own = situation.against(static_cast<Shell>(shell));
                 own[f] += h;
                 own[0] -= h;
                 situation.share_by_shell[shell] = own;
               });
      }
}

TEST_CASE("adjoint where the half may end") {
  DriveOptions options;
  options.end_of_half = true;
  const Subject subject(7, options);
  check_rates(subject, 0);
}

// A choice on fourth down that flips within the step bends the curve, so the step is tiny: rounding
// is then near 1e-12 / 1e-5 = 1e-7.
TEST_CASE("adjoint of net points where fourth downs are the best ones") {
  DriveOptions options;
  options.policy = FourthDownPolicy::best;
  const Subject subject(7, options);
  constexpr double step = 1e-5;
  constexpr auto completion = static_cast<std::size_t>(Rate::completion);
  for (std::size_t s = 0; s < shell_count; ++s) {
    const auto net_at = [&](double h) {
      Game game = subject.game;
      game.player.families[0].cell[s][completion] += h;
      return subject.values(game).net;
    };
    CHECK_THAT(subject.gradient.net_points.families[0].shell[s][completion],
               Catch::WithinAbs((net_at(step) - net_at(-step)) / (2 * step), 1e-6));
  }
}

TEST_CASE("counts of a drive add up to the engine's own") {
  const auto seed = GENERATE(3U, 4U);
  const Game game = random_game(seed);
  const auto starts = start_shares(game.setting);
  const DriveCounts counts = counts_over(game.model(), starts);
  const DriveValues values = solve(game.model()).over(starts);
  double touchdowns = 0;
  for (const double value : counts.touchdowns) touchdowns += value;
  CHECK_THAT(touchdowns, Catch::WithinAbs(values.share_of(DriveResult::touchdown), 1e-11));
  // Penalties that use up the down count as plays of the engine, but are nobody's call. The random
  // settings have them on at most 8 snaps in 1,000, what the gains' tails leave aside.
  double calls = 0;
  for (const double value : counts.calls) calls += value;
  CHECK(calls < values.plays);
  CHECK(calls > 0.97 * values.plays);
}

// What outcomes are worth is linear in the outcome table, so derivatives with it held are those of
// a sum that is known at every player: central differences of that sum.
TEST_CASE("a gradient at another player with what outcomes are worth held") {
  const Game game = random_game(5);
  const auto starts = start_shares(game.setting);
  const DrivePlan plan(game.scheme, families(), game.setting, game.net, game.options);
  const OutcomeWorth worth = outcome_worth(plan, game.player, starts);

  const PointGradients own = differentiate(plan, game.player, starts);
  const PointGradients same = differentiate(worth, game.player);
  CHECK_THAT(same.net_points.value, Catch::WithinAbs(own.net_points.value, 1e-11));
  CHECK_THAT(same.points.families[0].rate[0],
             Catch::WithinAbs(own.points.families[0].rate[0], 1e-12));

  Player other = game.player;
  constexpr auto completion = static_cast<std::size_t>(Rate::completion);
  for (PlayerFamily& family : other.families)
    for (auto& cell : family.cell) cell[completion] *= 0.9;
  const PointGradients there = differentiate(worth, other);
  const PointGradients by_calls = differentiate_by_calls(worth, other);
  CHECK(by_calls.points.call == there.points.call);
  CHECK(by_calls.net_points.call == there.net_points.call);
  CHECK(by_calls.net_points.value == there.net_points.value);
  CHECK(by_calls.points.families[0].rate == FamilyGradient{}.rate);
  const auto [points, net_points] = values_beside(worth, other);
  CHECK_THAT(points, Catch::WithinAbs(there.points.value, 1e-12));
  CHECK_THAT(net_points, Catch::WithinAbs(there.net_points.value, 1e-12));
  constexpr double step = 1e-4;
  for (std::size_t s = 0; s < shell_count; ++s) {
    const auto value_at = [&](double h) {
      Player moved = other;
      moved.families[0].cell[s][completion] += h;
      return differentiate(worth, moved).net_points.value;
    };
    CHECK_THAT(there.net_points.families[0].shell[s][completion],
               Catch::WithinAbs((value_at(step) - value_at(-step)) / (2 * step), 1e-7));
  }
  // First order: off by the square of the step.
  const auto miss = [&](double h) {
    Player moved = game.player;
    moved.families[0].cell[0][completion] += h;
    return differentiate(worth, moved).net_points.value -
           solve_points(plan.compile(moved)).net_over(starts);
  };
  CHECK(std::abs(miss(0.04)) > 1e-9);
  CHECK(miss(0.04) / miss(0.02) == Catch::Detail::Approx(4).epsilon(0.1));
}

// A class alone is a game whose only class it is.
TEST_CASE("points of one quality class, and their derivatives, are those of its own game") {
  Game game = random_game(6);
  game.setting.quality = random_setting(6).quality;
  const auto starts = start_shares(game.setting);
  const DrivePlan plan(game.scheme, families(), game.setting, game.net, game.options);
  const std::size_t usual = usual_class(plan);
  CHECK(usual == 1);  // 0.6 of the drives
  Setting alone = game.setting;
  alone.quality = {{1, game.setting.quality[usual].shifts}};
  const DrivePlan only(game.scheme, families(), alone, game.net, game.options);
  CHECK(usual_class(only) == 0);

  std::vector<Player> players(5, game.player);  // more than lie side by side
  constexpr auto completion = static_cast<std::size_t>(Rate::completion);
  for (std::size_t i = 0; i < players.size(); ++i)
    players[i].families[0].cell[0][completion] *= 1 - 0.02 * static_cast<double>(i);
  const PointValues near = solve_points(plan.compile(game.player));
  for (const FirstDownValues* from :
       {static_cast<const FirstDownValues*>(nullptr), &near.by_class}) {
    const auto points = points_in_class(plan, players, usual, starts, {1e-13, from});
    REQUIRE(points.size() == players.size());
    for (std::size_t i = 0; i < players.size(); ++i) {
      const PointValues own = solve_points(only.compile(players[i]));
      CHECK_THAT(points[i][0], Catch::WithinAbs(own.points_over(starts), 1e-11));
      CHECK_THAT(points[i][1], Catch::WithinAbs(own.net_over(starts), 1e-11));
    }
    CHECK(std::abs(points[4][1] - points[0][1]) > 1e-4);
  }
  const auto first = points_in_class(near.by_class, usual, starts);
  CHECK_THAT(first[1],
             Catch::WithinAbs(solve_points(only.compile(game.player)).net_over(starts), 1e-11));

  const PointGradients gradient =
      differentiate_in_class(outcome_worth(plan, game.player, starts), game.player, usual, starts);
  const PointGradients expected = differentiate(only, game.player, starts);
  CHECK_THAT(gradient.points.value, Catch::WithinAbs(expected.points.value, 1e-11));
  CHECK_THAT(gradient.net_points.value, Catch::WithinAbs(expected.net_points.value, 1e-11));
  for (std::size_t f = 0; f < game.player.families.size(); ++f)
    for (const Rate rate : played) {
      const auto r = static_cast<std::size_t>(rate);
      CHECK_THAT(gradient.net_points.families[f].rate[r],
                 Catch::WithinAbs(expected.net_points.families[f].rate[r], 1e-10));
      for (std::size_t s = 0; s < shell_count; ++s)
        CHECK_THAT(gradient.points.families[f].shell[s][r],
                   Catch::WithinAbs(expected.points.families[f].shell[s][r], 1e-10));
    }
  CHECK(gradient.net_points.value !=
        Catch::Detail::Approx(near.net_over(starts)).margin(1e-4));  // of all classes
}

TEST_CASE("net points of several men solved side by side are those of each alone") {
  Game game = random_game(6);
  game.setting.quality = random_setting(6).quality;
  REQUIRE(game.setting.quality.size() > 1);
  const auto starts = start_shares(game.setting);
  const DrivePlan plan(game.scheme, families(), game.setting, game.net, game.options);
  std::vector<Player> players(3, game.player);  // of several classes each, across solves
  players[1].families[0].cell[0][0] *= 0.9;
  players[2].families[1].cell[1][0] *= 0.8;
  const PointValues near = solve_points(plan.compile(game.player));
  for (const FirstDownValues* from :
       {static_cast<const FirstDownValues*>(nullptr), &near.by_class}) {
    const std::vector<double> net = net_points_of(plan, players, starts, {1e-13, from});
    REQUIRE(net.size() == players.size());
    for (std::size_t i = 0; i < players.size(); ++i)
      CHECK_THAT(net[i],
                 Catch::WithinAbs(solve_points(plan.compile(players[i])).net_over(starts), 1e-11));
    CHECK(std::abs(net[1] - net[0]) > 1e-4);
    CHECK(std::abs(net[2] - net[0]) > 1e-4);
  }
}

TEST_CASE("looking back as far as drives need moves points by next to nothing") {
  const Game game = random_game(8);
  const auto starts = start_shares(game.setting);
  const DriveModel model = game.model();
  const int most = counts_over(model, starts).most_to_go;
  CHECK(most > 10);
  const PointValues all = solve_points(model);
  const auto miss = [&](int most_to_go) {
    const PointValues some = solve_points(model, {1e-13, nullptr, most_to_go});
    return std::max(std::abs(some.points_over(starts) - all.points_over(starts)),
                    std::abs(some.net_over(starts) - all.net_over(starts)));
  };
  INFO(most);
  CHECK(miss(most) < 1e-6);
  CHECK(miss(99) == 0);
  CHECK(miss(15) > 1e-5);  // the twin
}

namespace {

void same_points(const DrivePlan& made, const DrivePlan& fresh, const Game& game) {
  const PointValues a = solve_points(made.compile(game.player));
  const PointValues b = solve_points(fresh.compile(game.player));
  CHECK(a.net_points == b.net_points);
  CHECK(a.points == b.points);
  const auto starts = start_shares(game.setting);
  CHECK(differentiate(made, game.player, starts).net_points.call ==
        differentiate(fresh, game.player, starts).net_points.call);
}

}  // namespace

TEST_CASE("a plan with other shares is the one made anew, bit for bit") {
  Game game = random_game(6);
  const DrivePlan plan(game.scheme, families(), game.setting, game.net, game.options);
  for (CallSituation& situation : game.scheme.situations) {
    std::vector<double> own = situation.share;
    own[1] += own[0];
    own[0] = 0;  // no longer called at all
    situation.share = own;
    situation.share_by_shell[1] = std::vector<double>(own.rbegin(), own.rend());
  }
  const DrivePlan called = plan.with_calls(game.scheme);
  same_points(called, DrivePlan(game.scheme, families(), game.setting, game.net, game.options),
              game);
  for (ShellRule& rule : game.setting.shells) std::swap(rule.share[0], rule.share[2]);
  same_points(called.with_shells(game.setting.shells),
              DrivePlan(game.scheme, families(), game.setting, game.net, game.options), game);

  game.scheme.situations.front().when.down.high = 1;
  game.scheme.situations.pop_back();
  CHECK_THROWS_AS(plan.with_calls(game.scheme), std::invalid_argument);
  CHECK_THROWS_AS(plan.with_shells({}), std::invalid_argument);
}

#include "../support/example_setting.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/profile/draws.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/stats/beta.hpp>
#include <callfit/stats/logit.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>
#include <string>
#include <vector>

using namespace callfit;
using namespace callfit::testing;

namespace {

Snap a_throw(bool complete, const std::string& level = "pro", const std::string& game = "1") {
  Snap snap;
  snap.game = game;
  snap.level = level;
  snap.family = "throw";
  snap.result = complete ? Result::complete : Result::incomplete;
  snap.yards = complete ? 8 : 0;
  return snap;
}

Chart throws(int made, int of, const std::string& level = "pro", const std::string& game = "1") {
  Chart chart{"chart.csv", {}};
  for (int i = 0; i < of; ++i) chart.snaps.push_back(a_throw(i < made, level, game));
  return chart;
}

void append(Chart& chart, const Chart& more) {
  chart.snaps.insert(chart.snaps.end(), more.snaps.begin(), more.snaps.end());
}

// The example setting with a completion prior of Beta(a, b) and no cells.
Setting with_prior(double a, double b) {
  Setting setting = example_setting(false);
  const Beta beta{a, b};
  setting.families[pass_family].rates[static_cast<std::size_t>(Rate::completion)] =
      RatePopulation{beta.mean(), std::sqrt(beta.variance())};
  return setting;
}

RateEstimate completion(const Profile& profile) {
  return *profile.families[pass_family].rates[static_cast<std::size_t>(Rate::completion)];
}

const CellEstimate& cell(const Profile& profile, Cell wanted, Rate rate = Rate::completion) {
  for (const CellEstimate& estimate : profile.families[pass_family].cells)
    if (estimate.cell == wanted && estimate.rate == rate) return estimate;
  throw std::logic_error("no such cell");
}

Profile build(const Chart& chart, const Setting& setting) {
  return build_profile("test", {chart}, setting, weighting_of(setting));
}

// Posterior moments by brute force: a fine midpoint sum over theta of the full likelihood, written
// apart from the library's quadrature.
template <class LogDensity, class Value>
double integrate(const LogDensity& log_density, const Value& value) {
  constexpr int cells = 100'000;
  double largest = -1e300;
  for (int i = 0; i < cells; i += 100) largest = std::max(largest, log_density((i + 0.5) / cells));
  double total = 0;
  double sum = 0;
  for (int i = 0; i < cells; ++i) {
    const double theta = (i + 0.5) / cells;
    const double density = std::exp(log_density(theta) - largest);
    total += density;
    sum += density * value(theta);
  }
  return sum / total;
}

}  // namespace

// Power prior: Ibrahim & Chen (2000), Statistical Science 15:46-60 (from memory); closed form
// Beta(a + a0 y0 + y, b + a0 (n0 - y0) + n - y). History 30 of 50, current 12 of 20, Beta(1, 1);
// means and 95% ends recomputed with SciPy 1.10.1.
TEST_CASE("an old level's snaps count by their power-prior weight") {
  struct Row {
    double weight, mean, low, high;
  };
  const std::vector<Row> rows{{0, .590909, .384354, .781803},
                              {0.25, .594203, .428601, .749453},
                              {0.5, .595745, .453741, .730025},
                              {1, .597222, .482514, .706812}};
  const Setting setting = with_prior(1, 1);
  Chart chart = throws(30, 50, "old");
  append(chart, throws(12, 20));
  for (const Row& row : rows) {
    Weighting weighting = weighting_of(setting);
    weighting.levels.push_back({"old", row.weight, {}});
    const Profile profile = build_profile("test", {chart}, setting, weighting);
    const RateEstimate rate = completion(profile);
    const Beta posterior = Beta::of_mean(rate.mean, rate.strength);
    CHECK(rate.mean == Approx(row.mean).margin(6e-7).epsilon(0));
    CHECK(quantile(posterior, 0.025) == Approx(row.low).margin(6e-7).epsilon(0));
    CHECK(quantile(posterior, 0.975) == Approx(row.high).margin(6e-7).epsilon(0));
    CHECK(rate.counts.of == 70);
    CHECK(rate.counts.effective_of == Approx(20 + 50 * row.weight));
  }
}

// Gelman and others, Bayesian Data Analysis: prior Beta(1.4, 8.6) and 4 of 14 give Beta(5.4, 18.6),
// mean .225 and sd .0835 (recomputed).
TEST_CASE("a beta-binomial posterior is the textbook one") {
  const RateEstimate rate = completion(build(throws(4, 14), with_prior(1.4, 8.6)));
  CHECK(rate.mean == Approx(0.225));
  CHECK(rate.strength == Approx(24));
  CHECK(std::sqrt(Beta::of_mean(rate.mean, rate.strength).variance()) == Approx(.0835165));
  CHECK(rate.interval90().low == Approx(.1017262046).epsilon(1e-8));
  CHECK(rate.interval90().high == Approx(.3747689089).epsilon(1e-8));
}

TEST_CASE("a family never charted keeps the setting's prior and says so") {
  const Setting setting = example_setting();
  const Profile profile = build({}, setting);
  CHECK(profile.snaps() == 0);
  for (std::size_t f = 0; f < setting.families.size(); ++f) {
    CHECK(profile.families[f].unseen());
    for (std::size_t r = 0; r < rate_count; ++r) {
      const auto& prior = setting.families[f].rates[r];
      REQUIRE(profile.families[f].rates[r].has_value() == prior.has_value());
      if (!prior) continue;
      CHECK(profile.families[f].rates[r]->mean == Approx(prior->mean));
      CHECK(profile.families[f].rates[r]->strength == Approx(prior->strength()));
    }
  }
  CHECK_FALSE(build(throws(1, 2), setting).families[pass_family].unseen());
  CHECK(build(throws(1, 2), setting).families[run_family].unseen());
}

TEST_CASE("a level shift moves the estimate as the full likelihood does") {
  const Setting setting = with_prior(31, 19);
  Chart chart = throws(9, 12);
  append(chart, throws(60, 80, "college"));
  const RateEstimate rate = completion(build(chart, setting));
  const auto log_density = [](double theta) {
    const double p = shifted(theta, 0.3);
    return (31 - 1 + 9) * std::log(theta) + (19 - 1 + 3) * std::log1p(-theta) + 60 * std::log(p) +
           20 * std::log1p(-p);
  };
  const double mean = integrate(log_density, [](double theta) { return theta; });
  const double square = integrate(log_density, [](double theta) { return theta * theta; });
  CHECK(rate.mean == Approx(mean).epsilon(1e-7));
  CHECK(Beta::of_mean(rate.mean, rate.strength).variance() ==
        Approx(square - mean * mean).epsilon(1e-5));
  // Against an easier level the same counts say less.
  CHECK(rate.mean < completion(build(throws(69, 92), setting)).mean);
}

TEST_CASE("a cell leans on its family and on its own snaps") {
  const Setting setting = example_setting();
  Chart chart = throws(40, 60);
  for (int i = 0; i < 12; ++i) {
    Snap snap = a_throw(i < 4);
    snap.platform = Platform::moving;
    chart.snaps.push_back(snap);
  }
  const Profile profile = build(chart, setting);
  const CellEstimate& moving = cell(profile, Cell::moving);
  CHECK(moving.counts.of == 12);
  CHECK(moving.counts.effective_made == Approx(4));
  CHECK(moving.departure == Approx(logit(4.0 / 12) - logit(44.0 / 72)));

  const RateEstimate family = completion(profile);
  const Beta theta = Beta::of_mean(family.mean, family.strength);
  const double kappa = 60;
  const double expected = integrate(
      [&](double x) { return (theta.a - 1) * std::log(x) + (theta.b - 1) * std::log1p(-x); },
      [&](double x) {
        const double worth = 12 / (1 - 12.0 / 72);
        const double seen = shifted(x, moving.departure);
        return (kappa * shifted(x, -0.3) + worth * seen) / (kappa + worth);
      });
  CHECK(moving.mean == Approx(expected).epsilon(1e-6));
  CHECK(moving.interval.low < moving.mean);
  CHECK(moving.mean < moving.interval.high);

  // A cell without snaps is the family's rate, shifted; its interval is wider than the family's.
  const CellEstimate& pressure = cell(profile, Cell::pressure);
  CHECK(pressure.counts.of == 0);
  CHECK(pressure.mean < completion(profile).mean);
  const Interval whole = family.interval90();
  CHECK(pressure.interval.high - pressure.interval.low > whole.high - whole.low);
}

namespace {

// `made` of `of` throws at a level, on the move where `moving`.
Chart on_the_move(int made, int of, const std::string& level, bool moving) {
  Chart chart = throws(made, of, level);
  for (Snap& snap : chart.snaps) snap.platform = moving ? Platform::moving : Platform::pocket;
  return chart;
}

Chart all_of(const std::vector<Chart>& parts) {
  Chart chart{"chart.csv", {}};
  for (const Chart& part : parts) append(chart, part);
  return chart;
}

double log_odds_of_moving(const std::vector<Chart>& parts) {
  return cell(build(all_of(parts), example_setting()), Cell::moving).departure;
}

}  // namespace

TEST_CASE("a cell with the same rate as all at each level departs by exactly nothing") {
  // Half at either level, but the levels differ and so does the cell's mix of them.
  CHECK(log_odds_of_moving({on_the_move(6, 12, "pro", true), on_the_move(4, 8, "pro", false),
                            on_the_move(3, 4, "college", true),
                            on_the_move(27, 36, "college", false)}) == 0);
  // One level, and the only other one never on the move.
  CHECK(log_odds_of_moving({on_the_move(6, 12, "pro", true), on_the_move(4, 8, "pro", false),
                            on_the_move(39, 40, "college", false)}) == 0);
  CHECK(log_odds_of_moving({on_the_move(4, 12, "pro", true), on_the_move(3, 9, "pro", false)}) ==
        0);
  CHECK(log_odds_of_moving({on_the_move(0, 12, "pro", true), on_the_move(0, 8, "pro", false)}) ==
        0);
  CHECK(log_odds_of_moving({on_the_move(9, 12, "pro", false)}) == 0);
}

// By brute force over departures, written apart from the library's Newton steps; weights of the
// example's levels: 1 and what its college says.
TEST_CASE("a departure over mixed levels is the maximum of the likelihood") {
  const Setting setting = example_setting();
  const double weight = setting.find_level("college")->weight;
  const std::vector<Chart> parts{on_the_move(5, 12, "pro", true), on_the_move(30, 40, "pro", false),
                                 on_the_move(9, 20, "college", true),
                                 on_the_move(20, 30, "college", false)};
  double best = 0;
  double most = -1e300;
  for (int step = -40000; step <= 40000; ++step) {
    const double departure = step / 10000.0;
    const double pro = shifted(35.0 / 52, departure);
    const double college = shifted(29.0 / 50, departure);
    const double likelihood = 5 * std::log(pro) + 7 * std::log(1 - pro) +
                              weight * (9 * std::log(college) + 11 * std::log(1 - college));
    if (likelihood > most) {
      most = likelihood;
      best = departure;
    }
  }
  CHECK(log_odds_of_moving(parts) == Approx(best).margin(1e-4).epsilon(0));
  CHECK(best < -0.3);
}

TEST_CASE("a cell where all or nothing succeeds has a finite departure and an estimate inside") {
  for (const int made : {0, 12}) {
    const Profile profile =
        build(all_of({on_the_move(made, 12, "pro", true), on_the_move(30, 40, "pro", false)}),
              example_setting());
    const CellEstimate& moving = cell(profile, Cell::moving);
    CHECK(std::abs(moving.departure) == Approx(-logit(smallest_share)).epsilon(1e-9));
    const double worth = 12 / (1 - 12.0 / 52);
    const RateEstimate family = completion(profile);
    const Beta theta = Beta::of_mean(family.mean, family.strength);
    const double expected = integrate(
        [&](double x) { return (theta.a - 1) * std::log(x) + (theta.b - 1) * std::log1p(-x); },
        [&](double x) { return (60 * shifted(x, -0.3) + (made == 0 ? 0 : worth)) / (60 + worth); });
    CHECK(moving.mean == Approx(expected).epsilon(1e-8));
  }
}

// Draws given a family's rate that is itself drawn: what the table says is what is drawn from.
TEST_CASE("the mean and interval of a cell are those of its draws, mixed levels and all") {
  const Setting setting = example_setting();
  const Profile profile =
      build(all_of({on_the_move(1, 14, "pro", true), on_the_move(30, 40, "pro", false),
                    on_the_move(2, 9, "college", true), on_the_move(20, 30, "college", false)}),
            setting);
  constexpr std::size_t count = 200'000;
  const auto draws = PlayerDraws::of_profile(profile, setting, {3, 0}, count);
  for (const CellEstimate& estimate : profile.families[pass_family].cells) {
    INFO(word(estimate.cell) << ' ' << word(estimate.rate));
    const DrawColumn column = draws.cell(pass_family, estimate.cell, estimate.rate);
    double sum = 0;
    double squares = 0;
    double below = 0;
    for (const double x : column) {
      sum += x / count;
      squares += x * x / count;
      below += x < estimate.interval.low ? 1.0 / count : 0;
    }
    const double sd = std::sqrt(squares - sum * sum);
    const bool shell = static_cast<std::size_t>(estimate.cell) < shell_count;
    // Shells are integrated with few points each: a hundredth of a standard deviation of slack.
    CHECK(std::abs(sum - estimate.mean) <
          4 * sd / std::sqrt(double{count}) + (shell ? 0.01 * sd : 0.0));
    // The interval is that of the Beta with the draws' mean and variance.
    CHECK(below == Approx(0.05).margin(0.015));
  }
}

TEST_CASE("charting the shell leaves a family's rate nearly as it was") {
  const Setting setting = example_setting();
  const Chart blank = throws(150, 250);
  Chart charted = blank;
  constexpr std::array shells{Shell::one_high, Shell::two_high};
  for (std::size_t i = 0; i < charted.snaps.size(); ++i) charted.snaps[i].shell = shells[i % 2];
  const RateEstimate a = completion(build(blank, setting));
  const RateEstimate b = completion(build(charted, setting));
  CHECK(b.mean == Approx(a.mean).margin(0.003));
  CHECK(b.strength == Approx(a.strength).epsilon(0.02));
  CHECK(b.mean != a.mean);
}

TEST_CASE("every unknown family and level is named with its line") {
  const Setting setting = example_setting();
  Chart chart = throws(1, 3);
  chart.snaps[0].family = "trow";
  chart.snaps[0].line = 2;
  chart.snaps[2].level = "colege";
  chart.snaps[2].line = 4;
  try {
    build(chart, setting);
    FAIL("no error");
  } catch (const InputError& error) {
    REQUIRE(error.findings().size() == 2);
    CHECK_THAT(error.what(), Catch::Contains("chart.csv:2: family") && Catch::Contains("throw?"));
    CHECK_THAT(error.what(), Catch::Contains("chart.csv:4: level") && Catch::Contains("college?"));
  }
  chart.snaps[2].level = "pro";
  const auto snaps = [&] {
    return build_profile("test", {chart}, setting, weighting_of(setting), {{"trow", "throw"}})
        .families[pass_family]
        .snaps;
  };
  CHECK(snaps() == 3);
  // What was called need not be known where a foul wiped it out (docs/chart.md).
  chart.snaps[1].result = Result::no_play;
  chart.snaps[1].family = "";
  CHECK(snaps() == 2);
  chart.snaps[1].family = "trwo";
  CHECK_THROWS_AS(snaps(), InputError);
}

TEST_CASE("draws are centred on the means and repeat themselves") {
  const Setting setting = example_setting();
  Chart chart = throws(20, 40);
  for (std::size_t i = 0; i < chart.snaps.size(); i += 2) chart.snaps[i].shell = Shell::two_high;
  const Profile profile = build(chart, setting);
  const Player centre = mean_player(profile, setting);
  constexpr int draws = 4000;
  struct Watched {
    Measure measure;
    std::optional<Cell> cell;
  };
  const auto drawn = PlayerDraws::of_profile(profile, setting, {1}, draws);
  for (const Watched& watched :
       {Watched{Measure::completion, {}}, Watched{Measure::completion, Cell::moving},
        Watched{Measure::sack, {}}, Watched{Measure::yards_after_catch, {}}}) {
    double sum = 0;
    double squares = 0;
    for (std::size_t i = 0; i < draws; ++i) {
      const double x =
          measure_of(drawn.player_at(i), setting, pass_family, watched.measure, watched.cell);
      sum += x;
      squares += x * x;
    }
    const double mean = sum / draws;
    const double error = std::sqrt((squares / draws - mean * mean) / draws);
    // Cells are drawn given the family's rate, which already holds their snaps: 0.003 of slack.
    CHECK(std::abs(mean - measure_of(centre, setting, pass_family, watched.measure, watched.cell)) <
          4 * error + (watched.cell ? 0.003 : 0.0));
  }
  const auto again = PlayerDraws::of_profile(profile, setting, {1}, draws);
  CHECK(drawn.player_at(5).families[0].rate == again.player_at(5).families[0].rate);
  CHECK(drawn.player_at(5).families[0].rate != again.player_at(6).families[0].rate);
}

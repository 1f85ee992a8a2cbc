#include "../support/example_setting.hpp"
#include "../support/sum.hpp"

#include <callfit/profile/draws.hpp>
#include <callfit/profile/player.hpp>
#include <callfit/stats/logit.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>
#include <string>
#include <vector>

using namespace callfit;
using namespace callfit::testing;

namespace {

double over_shells(const PlayerFamily& family, Rate rate, const Setting& setting) {
  const auto mix = shell_mix(setting);
  double average = 0;
  for (std::size_t s = 0; s < shell_count; ++s)
    average += mix[s] * family.at(rate, static_cast<Cell>(s));
  return average;
}

struct Moments {
  double mean = 0, sd = 0, kurtosis = 0;
};

Moments moments(const std::vector<double>& values) {
  const auto n = static_cast<double>(values.size());
  Moments m;
  m.mean = sum(values) / n;
  double second = 0;
  double fourth = 0;
  for (double v : values) {
    second += std::pow(v - m.mean, 2) / n;
    fourth += std::pow(v - m.mean, 4) / n;
  }
  m.sd = std::sqrt(second);
  m.kurtosis = fourth / (second * second);
  return m;
}

// Standard error of a sampled sd: sd sqrt((kurtosis - 1) / (4 n)). Four of them.
bool sd_holds(const Moments& m, double expected, std::size_t n) {
  return std::abs(m.sd - expected) <
         4 * m.sd * std::sqrt((m.kurtosis - 1) / (4 * static_cast<double>(n)));
}

}  // namespace

TEST_CASE("the average player has the setting's own rates and gains") {
  const Setting setting = example_setting();
  const Player player = average_player(setting);
  REQUIRE(player.families.size() == 3);
  const PlayerFamily& family = player.families[pass_family];
  CHECK(family.at(Rate::completion) == 0.62);
  CHECK(player.families[run_family].at(Rate::completion) == 0);
  CHECK(sum(family.depth_bins) == Approx(1));
  CHECK(family.run_bins.empty());
  CHECK(over_shells(family, Rate::completion, setting) == Approx(0.62).epsilon(1e-12));
  CHECK(over_shells(family, Rate::sack, setting) == Approx(0.07).epsilon(1e-12));
  // Differences between shells stay as the setting says; unknown cells keep the family's rate.
  const auto apart = [&](Cell a, Cell b) {
    return logit(family.at(Rate::completion, a)) - logit(family.at(Rate::completion, b));
  };
  CHECK(apart(Cell::one_high, Cell::two_high) == Approx(0.15));
  CHECK(logit(family.at(Rate::completion, Cell::pressure)) == Approx(logit(0.62) - 0.7));
  CHECK(family.at(Rate::completion, Cell::left) == 0.62);
  CHECK(family.at(Rate::success, Cell::one_high) == family.at(Rate::success));
}

TEST_CASE("gains of the average player are the population's shape") {
  const Setting setting = example_setting();
  const Player player = average_player(setting);
  const GainPopulation& run = *setting.families[run_family].run;
  const YardPmf pmf = gain_pmf(run, player.families[run_family].run_bins);
  for (int g = pmf.first; g <= pmf.last(); ++g) CHECK(pmf.at(g) == Approx(run.shape.at(g)));
  CHECK(measure_of(player, setting, run_family, Measure::run_gain) == Approx(mean(run.shape)));
  CHECK(measure_of(player, setting, pass_family, Measure::run_gain) == 0);

  std::vector<double> all_long(run.bin_start.size(), 0.0);
  all_long.back() = 1;
  const YardPmf far = gain_pmf(run, all_long);
  CHECK(far.at(19) == 0);
  CHECK(sum(far.p) == Approx(1));
  CHECK(far.at(21) / far.at(20) == Approx(run.shape.at(21) / run.shape.at(20)));
}

TEST_CASE("population draws have the setting's means and spreads") {
  const Setting setting = example_setting();
  constexpr std::size_t players = 4000;
  struct Watched {
    std::size_t family;
    Measure measure;
    std::optional<Cell> cell;
  };
  const std::vector<Watched> watched{{pass_family, Measure::completion, {}},
                                     {pass_family, Measure::sack, {}},
                                     {pass_family, Measure::completion, Cell::moving},
                                     {pass_family, Measure::completion, Cell::two_high},
                                     {pass_family, Measure::completion, Cell::none_high},
                                     {pass_family, Measure::yards_after_catch, {}},
                                     {run_family, Measure::run_gain, {}}};
  std::vector<std::vector<double>> values(watched.size());
  const auto members = PlayerDraws::of_population(setting, {5}, players);
  for (std::size_t i = 0; i < players; ++i) {
    const Player player = members.player_at(i);
    for (std::size_t w = 0; w < watched.size(); ++w)
      values[w].push_back(
          measure_of(player, setting, watched[w].family, watched[w].measure, watched[w].cell));
    REQUIRE(over_shells(player.families[pass_family], Rate::completion, setting) ==
            Approx(player.families[pass_family].at(Rate::completion)).epsilon(1e-10));
  }
  const Player average = average_player(setting);
  for (std::size_t w = 0; w < watched.size(); ++w) {
    const auto [family, measure, cell] = watched[w];
    const Moments m = moments(values[w]);
    INFO(word(measure) << (cell ? " " + std::string(word(*cell)) : ""));
    CHECK(sd_holds(m, spread_of(setting, family, measure, cell), players));
    if (!cell)
      CHECK(std::abs(m.mean - measure_of(average, setting, family, measure)) <
            4 * m.sd / std::sqrt(double{players}));
  }
  // The twin: a spread 8% off is seen.
  CHECK_FALSE(sd_holds(moments(values[0]), 1.08 * 0.05, players));
}

TEST_CASE("a measure that a family lacks has no spread") {
  const Setting setting = example_setting();
  CHECK(spread_of(setting, handoff_family, Measure::completion) == 0);
  CHECK(spread_of(setting, handoff_family, Measure::yards_after_catch) == 0);
  CHECK(spread_of(setting, pass_family, Measure::completion) == 0.05);
}

TEST_CASE("population draws depend on seed and index alone") {
  const Setting setting = example_setting();
  const Player a = PlayerDraws::of_population(setting, {9}, 4).player_at(3);
  const Player b = PlayerDraws::of_population(setting, {9}, 4).player_at(3);
  const Player c = PlayerDraws::of_population(setting, {9}, 5).player_at(4);
  CHECK(a.families[0].rate == b.families[0].rate);
  CHECK(a.sack_bins == b.sack_bins);
  CHECK(a.families[0].rate != c.families[0].rate);
}

TEST_CASE("gains shift by proportional odds") {
  const Setting setting = example_setting();
  const YardPmf& shape = setting.families[run_family].run->shape;
  const YardPmf moved = shifted(shape, 0.4);
  CHECK(sum(moved.p) == Approx(1));
  const auto at_least = [](const YardPmf& pmf, int from) {
    double total = 0;
    for (int g = from; g <= pmf.last(); ++g) total += pmf.at(g);
    return total;
  };
  for (int g : {-2, 0, 3, 10, 30})
    CHECK(logit(at_least(moved, g)) - logit(at_least(shape, g)) == Approx(0.4).epsilon(1e-6));
  CHECK(shifted(shape, 0).p == shape.p);
  CHECK(mean(shifted(shape, -0.4)) < mean(shape));
}

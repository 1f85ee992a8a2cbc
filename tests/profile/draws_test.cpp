// Columns of draws against the exact distributions, and against players drawn one by one.
#include "../support/example_setting.hpp"

#include <callfit/profile/draws.hpp>
#include <callfit/stats/beta.hpp>
#include <profile/draw_source.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

using namespace callfit;
using namespace callfit::testing;

namespace {

using Sample = std::vector<double>;

constexpr std::size_t count = 4096;
constexpr DrawKey key{7, 3};

// 99.9% points of the Kolmogorov-Smirnov distance, sqrt(n) D (Smirnov 1948, from memory).
constexpr double surprising = 1.95;

Sample sorted(DrawColumn column) {
  Sample values(column.begin(), column.end());
  std::sort(values.begin(), values.end());
  return values;
}

double distance_from(const Beta& beta, DrawColumn column) {
  const Sample values = sorted(column);
  const auto n = static_cast<double>(values.size());
  double most = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values[i] <= 0 || values[i] >= 1) continue;  // too near an end for a double
    const double below = cdf(beta, values[i]);
    most = std::max({most, std::abs(below - static_cast<double>(i) / n),
                     std::abs(below - static_cast<double>(i + 1) / n)});
  }
  return most * std::sqrt(n);
}

// Of two samples of the same size.
double distance_between(DrawColumn one, DrawColumn two) {
  const Sample a = sorted(one);
  const Sample b = sorted(two);
  REQUIRE(a.size() == b.size());
  double most = 0;
  for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
    (a[i] <= b[j] ? i : j) += 1;
    most = std::max(most, std::abs(static_cast<double>(i) - static_cast<double>(j)));
  }
  const auto n = static_cast<double>(a.size());
  return most / n * std::sqrt(n / 2);
}

Profile profile_of(const Setting& setting) {
  Chart chart{"chart.csv", {}};
  for (int i = 0; i < 90; ++i) {
    Snap snap;
    snap.game = "1";
    snap.level = i % 3 == 0 ? "college" : "pro";
    snap.family = i % 10 == 9 ? "keep" : "throw";
    snap.result = i % 10 == 9 ? Result::run : i % 7 < 4 ? Result::complete : Result::incomplete;
    snap.yards = snap.result == Result::incomplete ? 0 : 3 + i % 12;
    if (i % 2 == 0) snap.shell = i % 4 == 0 ? Shell::two_high : Shell::one_high;
    if (i % 5 == 0) snap.platform = Platform::moving;
    chart.snaps.push_back(snap);
  }
  return build_profile("test", {chart}, setting, weighting_of(setting));
}

double mean_of(DrawColumn column) {
  return std::accumulate(column.begin(), column.end(), 0.0) / static_cast<double>(column.size());
}

// Rates and cells of the passing family of one quarterback, number by number.
PlayerFamily one_by_one(const DrawSource& source, Stream stream) {
  const FamilySource& from = source.families[pass_family];
  PlayerFamily family;
  for (std::size_t r = 0; r < rate_count; ++r)
    if (from.rates[r]) family.rate[r] = draw(*from.rates[r], stream);
  CellTable table;
  for (std::size_t c = 0; c < cell_count; ++c)
    for (std::size_t r = 0; r < rate_count; ++r)
      if (const auto& cell = from.cells[c][r]) table[c][r] = CellRate{cell->shift, cell->kappa};
  lay_out_cells(family, table, source.mix,
                [&](std::size_t c, std::size_t r, const CellRate&, double) {
                  const CellSource& cell = *from.cells[c][r];
                  return draw(CellGivenFamily(cell.shift, cell.departure)
                                  .posterior(family.rate[r], cell.kappa, cell.of),
                              stream);
                });
  return family;
}

bool same(DrawColumn a, DrawColumn b) { return std::equal(a.begin(), a.end(), b.begin(), b.end()); }

}  // namespace

TEST_CASE("a column of a rate is its Beta") {
  const Setting setting = example_setting();
  const Profile profile = profile_of(setting);
  const auto own = PlayerDraws::of_profile(profile, setting, key, count);
  const auto others = PlayerDraws::of_population(setting, key, count);
  for (std::size_t f = 0; f < setting.families.size(); ++f)
    for (std::size_t r = 0; r < rate_count; ++r) {
      const auto rate = static_cast<Rate>(r);
      const auto& prior = setting.families[f].rates[r];
      if (!prior) {
        CHECK(own.rate(f, rate)[5] == 0);
        continue;
      }
      INFO(setting.families[f].id << ' ' << word(rate));
      const RateEstimate& known = *profile.families[f].rates[r];
      CHECK(distance_from(Beta::of_mean(known.mean, known.strength), own.rate(f, rate)) <
            surprising);
      CHECK(distance_from(Beta::of_mean(prior->mean, prior->strength()), others.rate(f, rate)) <
            surprising);
    }
  // The twin: a mean a tenth of a spread off is seen.
  const RatePopulation& prior = *setting.families[0].rates[0];
  CHECK(distance_from(Beta::of_mean(prior.mean + 0.1 * prior.spread, prior.strength()),
                      others.rate(0, static_cast<Rate>(0))) > surprising);
}

TEST_CASE("small shapes are drawn as large ones are") {
  Setting setting = example_setting(false);
  for (const double strength : {0.02, 0.3, 1.7, 40.0}) {
    const double mean = 0.2;
    setting.families[pass_family].rates[0] =
        RatePopulation{mean, std::sqrt(mean * (1 - mean) / (strength + 1))};
    const auto draws = PlayerDraws::of_population(setting, key, count);
    INFO(strength);
    CHECK(distance_from(Beta::of_mean(mean, strength), draws.rate(pass_family, Rate::sack)) <
          surprising);
  }
}

TEST_CASE("bins are Dirichlet: each is Beta, and a draw's sum to one") {
  const Setting setting = example_setting();
  const Profile profile = profile_of(setting);
  const auto draws = PlayerDraws::of_profile(profile, setting, key, count);
  const auto check = [&](const GainEstimate& gain, const std::vector<DrawColumn>& bins) {
    REQUIRE(bins.size() == gain.alpha.size());
    const double total = std::accumulate(gain.alpha.begin(), gain.alpha.end(), 0.0);
    Sample sum(count, 0.0);
    for (std::size_t b = 0; b < bins.size(); ++b) {
      CHECK(distance_from({gain.alpha[b], total - gain.alpha[b]}, bins[b]) < surprising);
      for (std::size_t i = 0; i < count; ++i) sum[i] += bins[b][i];
    }
    for (const double value : sum) CHECK(std::abs(value - 1) < 1e-12);
  };
  check(*profile.families[pass_family].depth, draws.bins(GainPart::depth, pass_family));
  check(*profile.families[pass_family].yac, draws.bins(GainPart::yac, pass_family));
  check(*profile.families[run_family].run, draws.bins(GainPart::run, run_family));
  check(profile.scramble, draws.bins(GainPart::scramble));
  check(profile.sack, draws.bins(GainPart::sack, run_family));
  CHECK(draws.bins(GainPart::run, pass_family).empty());
}

TEST_CASE("bins of next to no concentration still sum to one") {
  Setting setting = example_setting(false);
  setting.sack_gain.concentration = 0.01;
  const auto draws = PlayerDraws::of_population(setting, key, count);
  const auto& bins = draws.bins(GainPart::sack);
  const std::vector<double> shares = setting.sack_gain.bin_shares();
  for (std::size_t b = 0; b < bins.size(); ++b) {
    const double error = std::sqrt(shares[b] * (1 - shares[b]) / count);
    CHECK(std::abs(mean_of(bins[b]) - shares[b]) < 4 * error + 1e-12);
  }
}

TEST_CASE("cells are spread as those of players drawn one by one") {
  const Setting setting = example_setting();
  const Profile profile = profile_of(setting);
  const auto own = PlayerDraws::of_profile(profile, setting, key, count);
  const auto others = PlayerDraws::of_population(setting, key, count);
  const DrawSource of_own = source_of(profile, setting);
  const DrawSource of_others = source_of(setting);
  std::vector<PlayerFamily> own_players, other_players;
  for (std::uint64_t i = 0; i < count; ++i) {
    own_players.push_back(one_by_one(of_own, Stream(99, Purpose::player_draw, i)));
    other_players.push_back(one_by_one(of_others, Stream(99, Purpose::population_draw, i)));
  }
  const auto compared = [&](const std::vector<PlayerFamily>& players, DrawColumn column, Cell cell,
                            Rate rate) {
    Sample values;
    for (const PlayerFamily& player : players) values.push_back(player.at(rate, cell));
    return distance_between(values, column);
  };
  for (const Rate rate : {Rate::completion, Rate::sack})
    for (const Cell cell : {Cell::one_high, Cell::two_high, Cell::none_high, Cell::moving,
                            Cell::pressure, Cell::left}) {
      INFO(word(rate) << ' ' << word(cell));
      CHECK(compared(own_players, own.cell(pass_family, cell, rate), cell, rate) < surprising);
      CHECK(compared(other_players, others.cell(pass_family, cell, rate), cell, rate) < surprising);
    }
  // The twin: the quarterback is not the population.
  CHECK(compared(other_players, own.cell(pass_family, Cell::moving, Rate::completion), Cell::moving,
                 Rate::completion) > surprising);
}

TEST_CASE("every draw's shells average to its family's rate") {
  Setting setting = example_setting();
  for (CellPopulation& cell : setting.cells)
    for (auto& rate : cell.rates)
      if (rate) rate->kappa = 2;  // shells that lie as far apart as can be
  const auto draws = PlayerDraws::of_population(setting, key, count);
  const auto mix = shell_mix(setting);
  for (const Rate rate : {Rate::completion, Rate::sack}) {
    const DrawColumn family = draws.rate(pass_family, rate);
    double worst = 0;
    for (std::size_t i = 0; i < count; ++i) {
      double average = 0;
      for (std::size_t s = 0; s < shell_count; ++s)
        average += mix[s] * draws.cell(pass_family, static_cast<Cell>(s), rate)[i];
      worst = std::max(worst, std::abs(average - family[i]));
    }
    CHECK(worst < 1e-12);
  }
}

TEST_CASE("a column hangs on its key alone") {
  const Setting setting = example_setting();
  const Profile profile = profile_of(setting);
  const auto one = PlayerDraws::of_profile(profile, setting, key, 300);
  const auto two = PlayerDraws::of_profile(profile, setting, key, 100);
  two.bins(GainPart::yac, pass_family);
  const DrawColumn shell = two.cell(pass_family, Cell::two_high, Rate::completion);
  const DrawColumn longer = one.cell(pass_family, Cell::two_high, Rate::completion);
  CHECK(same(shell, longer.first(100)));
  CHECK(same(two.bins(GainPart::yac, pass_family)[1],
             one.bins(GainPart::yac, pass_family)[1].first(100)));
  CHECK(same(two.rate(run_family, Rate::fumble), one.rate(run_family, Rate::fumble).first(100)));

  const auto elsewhere = PlayerDraws::of_profile(profile, setting, {key.seed, key.place + 1}, 100);
  const auto again = PlayerDraws::of_profile(profile, setting, {key.seed + 1, key.place}, 100);
  CHECK_FALSE(same(elsewhere.rate(0, Rate::completion), two.rate(0, Rate::completion)));
  CHECK_FALSE(same(again.rate(0, Rate::completion), two.rate(0, Rate::completion)));
  // No two columns share a stream: success is no copy of completion, draw by draw.
  CHECK_FALSE(same(two.rate(0, Rate::success), two.rate(0, Rate::completion)));
}

TEST_CASE("a player is put together from the columns") {
  const Setting setting = example_setting();
  const auto draws = PlayerDraws::of_profile(profile_of(setting), setting, key, 50);
  const Player player = draws.player_at(17);
  const Player played = draws.player_at(17, PlayerParts::played);
  CHECK(player.name == "test");
  for (std::size_t f = 0; f < setting.families.size(); ++f) {
    const PlayerFamily& family = player.families[f];
    for (std::size_t r = 0; r < rate_count; ++r) {
      const auto rate = static_cast<Rate>(r);
      CHECK(family.rate[r] == draws.rate(f, rate)[17]);
      for (std::size_t c = 0; c < cell_count; ++c)
        CHECK(family.cell[c][r] == draws.cell(f, static_cast<Cell>(c), rate)[17]);
    }
    CHECK(family.depth_bins == played.families[f].depth_bins);
  }
  CHECK(player.sack_bins == played.sack_bins);
  const PlayerFamily& passes = played.families[pass_family];
  CHECK(passes.at(Rate::completion) == player.families[pass_family].at(Rate::completion));
  CHECK(passes.at(Rate::completion, Cell::two_high) ==
        player.families[pass_family].at(Rate::completion, Cell::two_high));
  CHECK(passes.at(Rate::success) == 0);
  CHECK(passes.at(Rate::completion, Cell::moving) == 0);
}

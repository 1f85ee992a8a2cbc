#include "../support/repeats.hpp"
#include "fixture.hpp"

#include <catch2/catch.hpp>
#include <drive/alias.hpp>
#include <drive/sampler.hpp>
#include <drive/tally.hpp>
#include <drive/words.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>

using namespace callfit;

namespace {

/// The largest distance between sampled and exact values in standard errors of the exact ones.
double worst_z(const SampledValues& sampled, const DriveValues& exact) {
  const auto n = static_cast<double>(sampled.drives);
  double worst = 0;
  for (std::size_t r = 0; r < drive_result_count; ++r) {
    const double p = exact.share[r];
    const double error = std::sqrt(p * (1 - p) / n) + 1 / n;
    worst = std::max(worst, std::abs(sampled.mean.share[r] - p) / error);
  }
  const DriveValues& error = sampled.standard_error;
  worst = std::max(worst, std::abs(sampled.mean.points - exact.points) / error.points);
  worst = std::max(worst, std::abs(sampled.mean.net_points - exact.net_points) / error.net_points);
  worst = std::max(worst, std::abs(sampled.mean.plays - exact.plays) / error.plays);
  return std::max(worst, std::abs(sampled.mean.first_downs - exact.first_downs) /
                             std::max(error.first_downs, 1 / n));
}

bool same_bits(const DriveValues& a, const DriveValues& b) {
  return a.points == b.points && a.net_points == b.net_points && a.share == b.share &&
         a.first_downs == b.first_downs && a.plays == b.plays;
}

DriveModel one_yard_a_carry() {
  const Setting setting = fixture::bare_setting({1, {1}});
  const NetValues net{std::vector<double>(100, 0.0), 0, 0, 0};
  return compile_drives(average_player(setting), fixture::bare_scheme(), {0}, setting, net);
}

}  // namespace

// The invariant of alias tables (Walker 1977, Vose 1991): an outcome's probability is the sum of
// what its own columns and the columns that point to it give it. Here exactly, in integers.
TEST_CASE("alias tables give every outcome its integer share exactly") {
  for (std::size_t count : {1U, 2U, 3U, 7U, 64U, 65U, 200U}) {
    std::vector<drive::WeightedOutcome> outcomes;
    for (std::size_t i = 0; i < count; ++i)
      outcomes.push_back({static_cast<drive::Outcome>(i * 3),
                          std::pow(0.9, static_cast<double>(i)) * (i % 5 == 4 ? 0 : 1)});
    const auto shares = drive::integer_shares(outcomes);
    const drive::AliasTable table = drive::make_alias(outcomes);
    const std::uint64_t capacity = (std::uint64_t{1} << 32) >> table.bits;
    std::vector<std::uint64_t> given(3 * count);
    for (const drive::AliasColumn& column : table.columns) {
      given[column.own()] += column.threshold;
      given[column.other()] += capacity - column.threshold;
    }
    std::uint64_t total = 0;
    for (std::size_t i = 0; i < count; ++i) {
      CHECK(given[i * 3] == shares[i]);
      total += shares[i];
    }
    CHECK(total == std::uint64_t{1} << 32);
  }
}

TEST_CASE("picking from an alias table looks at all of its columns") {
  const drive::AliasTable table =
      drive::make_alias(std::vector<drive::WeightedOutcome>{{7, 0.25}, {9, 0.75}});
  std::uint64_t sevens = 0;
  for (std::uint64_t i = 0; i < 1024; ++i)
    sevens += drive::pick(table, static_cast<std::uint32_t>(i << 22)) == 7 ? 1U : 0U;
  CHECK(sevens == 256);
}

TEST_CASE("sampled drives agree with exact ones from every first and ten") {
  const DriveModel model = fixture::game().model();
  const ExactDrives exact = solve(model);
  // 99 spots x 13 values: a largest z above 5 would come up once in some 1,300 runs by chance.
  for (int y = 1; y <= 99; ++y) {
    INFO("first and ten at " << y);
    const SampledValues sampled = simulate(model, first_down_at(y), {1, 20'000, 1});
    CHECK(worst_z(sampled, exact.at(first_down_at(y))) < 5);
  }
}

TEST_CASE("many drives agree within four standard errors") {
  const DriveModel model = fixture::game().model();
  const ExactDrives exact = solve(model);
  for (const DriveState& start : {first_down_at(3), first_down_at(25), first_down_at(75),
                                  first_down_at(97), DriveState{3, 14, 60}}) {
    INFO(start.down << " and " << start.to_go << " at " << start.yards_to_goal);
    const SampleOptions options{2, callfit::testing::repeats(1'000'000), 0};
    CHECK(worst_z(simulate(model, start, options), exact.at(start)) < 4);
  }
}

TEST_CASE("a slightly wrong model is told apart", "[plain]") {
  fixture::Game game = fixture::game();
  const DriveModel model = game.model();
  for (PlayerFamily& family : game.player.families)
    for (auto& cell : family.cell) cell[static_cast<std::size_t>(Rate::completion)] += 0.01;
  const ExactDrives wrong = solve(game.model());
  const SampledValues sampled = simulate(model, first_down_at(75), {2, 1'000'000, 0});
  CHECK(worst_z(sampled, wrong.at(first_down_at(75))) > 4);
}

TEST_CASE("policies and the end of the half are sampled as they are solved") {
  for (const DriveOptions& options :
       {DriveOptions{FourthDownPolicy::best, false}, DriveOptions{FourthDownPolicy::table, true}}) {
    const fixture::Game game = fixture::random_game(5, options);
    const DriveModel model = game.model();
    const std::vector<double> starts = start_shares(game.setting);
    const SampledValues sampled = simulate_over(model, starts, {3, 100'000, 0});
    CHECK(worst_z(sampled, solve(model).over(starts)) < 4);
  }
}

// A field where every carry gains 1 yard and nobody kicks: a drive from y <= 4 yards scores with
// its y-th carry, every other one is over on downs after four. So where the drives of a sample
// start tells how each ends, to the drive; the starts are drawn anew here, from the same words.
// Sizes lie around those of a block of words, of a flight, and of a unit.
TEST_CASE("every drive that starts is played to its own end") {
  const DriveModel model = one_yard_a_carry();
  std::vector<double> starts(100, 0.0);
  for (const std::size_t y : {1U, 2U, 3U, 4U, 5U, 30U, 60U, 99U}) starts[y] = 1;
  const drive::AliasTable table = drive::make_starts(*model.table().plan, starts);
  for (std::uint64_t drives :
       {0U, 1U, 7U, 8U, 9U, 511U, 512U, 513U, 1'537U, 4'096U, 4'097U, 262'145U, 300'007U}) {
    INFO(drives << " drives");
    const std::uint64_t unit = std::max<std::uint64_t>(4'096, (drives + 63) / 64);
    drive::Tally expected;
    for (std::uint64_t first = 0; first < drives; first += unit) {
      drive::Words words(1, first / unit, drive::Use::starts);
      drive::Block block{};
      for (std::uint64_t i = 0; i < std::min(unit, drives - first); ++i) {
        if (i % drive::block_words == 0) block = words.next();
        const auto y =
            static_cast<std::uint32_t>(drive::pick(table, block[i % drive::block_words]));
        if (y <= 4)
          expected.add({DriveResult::touchdown, drive::kickoff_slot, 0, y});
        else
          expected.add({DriveResult::downs, static_cast<drive::Slot>(y - 4), 0, 4});
      }
    }
    const drive::Tally tally = drive::tally_over(model, starts, {1, drives, 2});
    CHECK(tally.ends == expected.ends);
    CHECK(tally.drives == drives);
    CHECK(tally.first_downs == 0);
    CHECK(tally.plays == expected.plays);
    CHECK(tally.plays_squared == expected.plays_squared);
  }
}

TEST_CASE("a sample from one state starts there") {
  const DriveModel model = one_yard_a_carry();
  const SampledValues sampled = simulate(model, {3, 1, 40}, {1, 1'000, 0});
  CHECK(sampled.mean.first_downs == 1);  // then four carries short of ten yards
  CHECK(sampled.mean.plays == 5);
  CHECK(sampled.by_plays[5] == 1);
  CHECK(sampled.mean.share_of(DriveResult::downs) == 1);
}

TEST_CASE("shares of starts that are none are refused") {
  const DriveModel model = fixture::game().model();
  std::vector<double> negative(100, 1.0);
  negative[50] = -0.1;
  std::vector<double> nowhere(100, 0.0);
  nowhere[0] = 1;
  for (const std::vector<double>& starts :
       {std::vector<double>(100, 0.0), std::vector<double>(99, 1.0), std::vector<double>{}, nowhere,
        negative})
    CHECK_THROWS_AS(simulate_over(model, starts, {1, 10, 1}), std::invalid_argument);
}

TEST_CASE("the number of threads changes no bit of a sample") {
  const DriveModel model = fixture::game().model();
  const std::vector<double> starts = start_shares(fixture::setting());
  const SampledValues one = simulate_over(model, starts, {7, 60'000, 1});
  const SampledValues large = simulate_over(model, starts, {7, 300'000, 1});
  for (unsigned threads : {2U, 3U, 7U}) {
    const SampledValues many = simulate_over(model, starts, {7, 60'000, threads});
    CHECK(same_bits(large.mean, simulate_over(model, starts, {7, 300'000, threads}).mean));
    CHECK(same_bits(one.mean, many.mean));
    CHECK(same_bits(one.standard_error, many.standard_error));
  }
  const SampledValues other = simulate_over(model, starts, {8, 60'000, 1});
  CHECK_FALSE(same_bits(one.mean, other.mean));
}

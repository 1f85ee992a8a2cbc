#include "../support/example_setting.hpp"
#include "../support/sum.hpp"

#include <callfit/profile/profile.hpp>

#include <catch2/catch.hpp>

#include <numeric>
#include <vector>

using namespace callfit;
using namespace callfit::testing;

namespace {

Snap gain(Result result, const char* family, int yards, int yards_to_goal = 75) {
  Snap snap;
  snap.game = "1";
  snap.level = "pro";
  snap.family = family;
  snap.result = result;
  snap.yards = yards;
  snap.yards_to_goal = yards_to_goal;
  return snap;
}

Profile profile_of(const std::vector<Snap>& snaps, const Setting& setting) {
  return build_profile("test", {Chart{"c.csv", snaps}}, setting, weighting_of(setting));
}

std::vector<double> added(const GainEstimate& estimate, const GainPopulation& population) {
  std::vector<double> counts = population.bin_shares();
  for (std::size_t b = 0; b < counts.size(); ++b)
    counts[b] = estimate.alpha[b] - population.concentration * counts[b];
  return counts;
}

}  // namespace

TEST_CASE("charted gains fall into their bins") {
  const Setting setting = example_setting();
  const Profile profile =
      profile_of({gain(Result::run, "keep", 3), gain(Result::run, "keep", 3),
                  gain(Result::run, "keep", 25), gain(Result::scramble, "throw", 9),
                  gain(Result::sack, "throw", -8), gain(Result::run, "throw", 4)},
                 setting);
  const GainPopulation& run = *setting.families[run_family].run;
  const auto counts = added(*profile.families[run_family].run, run);
  CHECK(counts[run.bin_of(3)] == Approx(2));
  CHECK(counts[run.bin_of(25)] == Approx(1));
  CHECK(sum(counts) == Approx(3));
  CHECK(added(profile.scramble, setting.scramble_gain)[setting.scramble_gain.bin_of(9)] ==
        Approx(1));
  CHECK(added(profile.sack, setting.sack_gain)[setting.sack_gain.bin_of(-8)] == Approx(1));
  CHECK(profile.families[run_family].run->snaps == 3);
}

TEST_CASE("a gain that reached the goal line was at least that") {
  const Setting setting = example_setting();
  const GainPopulation& run = *setting.families[run_family].run;
  const Profile profile = profile_of({gain(Result::run, "keep", 8, 8)}, setting);
  const auto counts = added(*profile.families[run_family].run, run);
  CHECK(sum(counts) == Approx(1));
  for (int yards : {-3, 1, 3, 5}) CHECK(counts[run.bin_of(yards)] == Approx(0).margin(1e-12));
  for (int yards : {8, 15, 30}) CHECK(counts[run.bin_of(yards)] > 0.05);
  CHECK(counts[run.bin_of(8)] > counts[run.bin_of(15)]);
}

TEST_CASE("depth and yards after the catch stay apart where charted") {
  const Setting setting = example_setting();
  const GainPopulation& depth = *setting.families[pass_family].depth;
  const GainPopulation& yac = *setting.families[pass_family].yac;
  Snap air = gain(Result::complete, "throw", 18);
  air.air_yards = 12;
  Snap after = gain(Result::complete, "throw", 18);
  after.yac = 6;
  for (const Snap& snap : {air, after}) {
    const Profile profile = profile_of({snap}, setting);
    CHECK(added(*profile.families[pass_family].depth, depth)[depth.bin_of(12)] == Approx(1));
    CHECK(added(*profile.families[pass_family].yac, yac)[yac.bin_of(6)] == Approx(1));
  }
  // Only the sum is known: both parts share it out, each by less than a snap.
  const Profile sum_only = profile_of({gain(Result::complete, "throw", 18)}, setting);
  const auto depths = added(*sum_only.families[pass_family].depth, depth);
  CHECK(sum(depths) > 0);
  CHECK(sum(depths) < 1);
  CHECK(sum(added(*sum_only.families[pass_family].yac, yac)) < 1);
  CHECK(depths[depth.bin_of(12)] > 0.05);
  CHECK(depths[depth.bin_of(25)] < 0.01);

  // Caught beyond the goal line: nothing is known of the yards after.
  Snap touchdown = gain(Result::complete, "throw", 9, 9);
  touchdown.air_yards = 14;
  const Profile scored = profile_of({touchdown}, setting);
  CHECK(added(*scored.families[pass_family].depth, depth)[depth.bin_of(14)] == Approx(1));
  CHECK(sum(added(*scored.families[pass_family].yac, yac)) == Approx(0).margin(1e-9));
  // Caught short of it: at least the rest of the way.
  touchdown.air_yards = 2;
  const auto rest = added(*profile_of({touchdown}, setting).families[pass_family].yac, yac);
  CHECK(sum(rest) == Approx(1));
  CHECK(rest[yac.bin_of(3)] == Approx(0).margin(1e-12));
  CHECK(rest[yac.bin_of(12)] > 0.1);
}

namespace {

struct BinMoments {
  double mean = 0, variance = 0;
};

BinMoments of_bins(const GainEstimate& estimate, const GainPopulation& population) {
  std::vector<double> share(estimate.alpha.size()), moment(estimate.alpha.size());
  for (int y = population.shape.first; y <= population.shape.last(); ++y) {
    share[population.bin_of(y)] += population.shape.at(y);
    moment[population.bin_of(y)] += population.shape.at(y) * y;
  }
  const double total = sum(estimate.alpha);
  BinMoments made;
  double square = 0;
  for (std::size_t b = 0; b < share.size(); ++b) {
    const double at = share[b] > 0 ? moment[b] / share[b] : 0;
    made.mean += estimate.alpha[b] / total * at;
    square += estimate.alpha[b] / total * at * at;
  }
  // Variance of the mean under the Dirichlet.
  made.variance = (square - made.mean * made.mean) / (total + 1);
  return made;
}

int quantile(const YardPmf& pmf, double share) {
  double sum = 0;
  for (int y = pmf.first; y < pmf.last(); ++y)
    if ((sum += pmf.at(y)) >= share) return y;
  return pmf.last();
}

}  // namespace

// Two normal means with variances a and b before, seen only through their sum: however often it is
// seen, each keeps the variance a b / (a + b) (any textbook on normal linear models, from memory).
// Close, not exact: bins are not normal.
TEST_CASE("sums alone never tell their parts fully apart") {
  const Setting setting = example_setting();
  const GainPopulation& depth = *setting.families[pass_family].depth;
  const GainPopulation& yac = *setting.families[pass_family].yac;
  const Profile nothing = profile_of({}, setting);
  const auto& before = nothing.families[pass_family];
  const BinMoments d = of_bins(*before.depth, depth), y = of_bins(*before.yac, yac);
  std::vector<Snap> snaps;
  constexpr int across = 60;
  for (int i = 0; i < across; ++i)
    for (int j = 0; j < across; ++j)
      snaps.push_back(gain(
          Result::complete, "throw",
          quantile(depth.shape, (i + 0.5) / across) + quantile(yac.shape, (j + 0.5) / across), 99));
  const Profile many = profile_of(snaps, setting);
  const auto& after = many.families[pass_family];
  const BinMoments d_after = of_bins(*after.depth, depth), y_after = of_bins(*after.yac, yac);
  const double limit = d.variance * y.variance / (d.variance + y.variance);
  CHECK(d_after.variance == Approx(limit).epsilon(0.1));
  CHECK(y_after.variance == Approx(limit).epsilon(0.1));
  CHECK(d_after.mean == Approx(d.mean).margin(0.3));  // the sums were the usual ones
}

TEST_CASE("gains outside the population's shape go to its end bins") {
  const Setting setting = example_setting();
  const GainPopulation& run = *setting.families[run_family].run;
  const auto counts = added(
      *profile_of({gain(Result::run, "keep", -30, 50), gain(Result::run, "keep", 90, 95)}, setting)
           .families[run_family]
           .run,
      run);
  CHECK(counts.front() == Approx(1));
  CHECK(counts.back() == Approx(1));
}

TEST_CASE("more long gains mean a longer distribution") {
  const Setting setting = example_setting();
  std::vector<Snap> snaps;
  const auto run_gain = [&](const std::vector<Snap>& charted) {
    const Profile profile = profile_of(charted, setting);
    return measure_of(mean_player(profile, setting), setting, run_family, Measure::run_gain);
  };
  const double before = run_gain(snaps);
  for (int i = 0; i < 40; ++i) snaps.push_back(gain(Result::run, "keep", 14));
  CHECK(run_gain(snaps) > before + 2);
}

// Profiles under a setting that says how quarterbacks differ together.
#include "../support/shipped.hpp"

#include <callfit/files/files.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/profile/draws.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/stats/beta.hpp>
#include <callfit/stats/logit.hpp>
#include <profile/joint.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>
#include <vector>

using namespace callfit;
using callfit::testing::professional;
using callfit::testing::root;

namespace {

constexpr DrawKey joint_key{11, 2};
constexpr std::size_t joint_count = 8192;

Chart demo_chart() {
  Findings notices;
  return Files().chart(root + "profiles/demo/new-starter.csv", notices);
}

Profile build(const Chart& chart) {
  return build_profile("test", {chart}, professional(), weighting_of(professional()));
}

std::size_t family(const std::string& id) {
  return static_cast<std::size_t>(professional().find_family(id) - professional().families.data());
}

Chart throws(const std::string& family, int made, int of, const std::string& level = "pro") {
  Chart chart{"chart.csv", {}};
  for (int i = 0; i < of; ++i) {
    Snap snap;
    snap.game = std::to_string(i % 20);
    snap.level = level;
    snap.family = family;
    snap.result = i < made ? Result::complete : Result::incomplete;
    snap.yards = i < made ? 8 : 0;
    snap.air_yards = 5;
    chart.snaps.push_back(snap);
  }
  return chart;
}

const RateEstimate& rate(const Profile& profile, const std::string& id, Rate rate) {
  return *profile.families[family(id)].rates[static_cast<std::size_t>(rate)];
}

double centre_of(DrawColumn column) {
  return std::accumulate(column.begin(), column.end(), 0.0) / static_cast<double>(column.size());
}

double width_of(DrawColumn column) {
  const double mean = centre_of(column);
  double sum = 0;
  for (const double value : column) sum += (value - mean) * (value - mean);
  return std::sqrt(sum / static_cast<double>(column.size()));
}

double correlation_of(DrawColumn a, DrawColumn b) {
  const double mean_a = centre_of(a), mean_b = centre_of(b);
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += (a[i] - mean_a) * (b[i] - mean_b);
  return sum / static_cast<double>(a.size()) / (width_of(a) * width_of(b));
}

// Four standard errors of a mean, and of a standard deviation where the shape is near normal.
const double four_errors = 4 / std::sqrt(static_cast<double>(joint_count));

}  // namespace

TEST_CASE("what is charted of one family moves the families that were not") {
  const Profile nothing = build({"empty.csv", {}});
  const Profile good = build(throws("quick_outside", 95, 110));
  for (const char* id : {"quick_middle", "intermediate", "deep_outside"}) {
    CAPTURE(id);
    CHECK(good.families[family(id)].unseen());
    CHECK(rate(good, id, Rate::completion).mean > rate(nothing, id, Rate::completion).mean + .002);
    CHECK(rate(good, id, Rate::completion).strength > rate(nothing, id, Rate::completion).strength);
  }
  CHECK(rate(good, "boot", Rate::interception).mean <
        rate(nothing, "boot", Rate::interception).mean);
}

TEST_CASE("nothing charted leaves the setting's means and spreads") {
  const Profile nothing = build({"empty.csv", {}});
  for (std::size_t f = 0; f < nothing.families.size(); ++f)
    for (std::size_t r = 0; r < rate_count; ++r) {
      const auto& estimate = nothing.families[f].rates[r];
      if (!estimate) continue;
      const RatePopulation& population = *professional().families[f].rates[r];
      CHECK(estimate->mean == Approx(population.mean).epsilon(1e-6));
      CHECK(estimate->strength == Approx(population.strength()).epsilon(1e-6));
    }
}

TEST_CASE("evidence holds every charted trial once") {
  const Profile profile = build(demo_chart());
  const JointPlaces places = joint_places(professional());
  for (std::size_t f = 0; f < profile.families.size(); ++f)
    for (std::size_t r = 0; r < rate_count; ++r) {
      if (!places.rates[f][r]) continue;
      double made = 0, of = 0;
      for (const QuantityCounts& tally : profile.evidence.tallies)
        if (tally.quantity == *places.rates[f][r]) {
          made += tally.counts[1];
          of += tally.counts[0] + tally.counts[1];
        }
      CHECK(made == Approx(profile.families[f].rates[r]->counts.made));
      CHECK(of == Approx(profile.families[f].rates[r]->counts.of));
    }
  CHECK(profile.evidence.games == 10);
  CHECK(profile.evidence.opponents.size() == 10);
}

TEST_CASE("draws have the estimates' means and spreads, and go together") {
  const Profile profile = build(demo_chart());
  const PlayerDraws draws =
      PlayerDraws::of_profile(profile, professional(), joint_key, joint_count);
  for (std::size_t f = 0; f < profile.families.size(); ++f)
    for (std::size_t r = 0; r < rate_count; ++r) {
      const auto& estimate = profile.families[f].rates[r];
      if (!estimate) continue;
      const Beta beta = Beta::of_mean(estimate->mean, estimate->strength);
      const double sd = std::sqrt(beta.variance());
      const DrawColumn column = draws.rate(f, static_cast<Rate>(r));
      CAPTURE(professional().families[f].id, word(static_cast<Rate>(r)));
      CHECK(centre_of(column) == Approx(beta.mean()).margin(four_errors * sd));
      CHECK(width_of(column) == Approx(sd).epsilon(2 * four_errors));
    }
  CHECK(correlation_of(draws.rate(family("quick_middle"), Rate::completion),
                       draws.rate(family("deep_outside"), Rate::completion)) > 0.1);
  CHECK(correlation_of(draws.rate(family("quick_middle"), Rate::sack),
                       draws.rate(family("deep_outside"), Rate::sack)) > 0.5);
}

TEST_CASE("bins are drawn from the gain's shift, and its estimate has their means") {
  const Profile profile = build(demo_chart());
  const PlayerDraws draws =
      PlayerDraws::of_profile(profile, professional(), joint_key, joint_count);
  const std::size_t f = family("quick_outside");
  const auto& bins = draws.bins(GainPart::yac, f);
  const std::vector<double>& alpha = profile.families[f].yac->alpha;
  REQUIRE(bins.size() == alpha.size());
  const double total = std::accumulate(alpha.begin(), alpha.end(), 0.0);
  for (std::size_t b = 0; b < bins.size(); ++b)
    CHECK(centre_of(bins[b]) ==
          Approx(alpha[b] / total).margin(four_errors * width_of(bins[b]) + 1e-9));
  for (std::size_t i = 0; i < joint_count; i += 97) {
    double sum = 0;
    for (const DrawColumn bin : bins) sum += bin[i];
    CHECK(sum == Approx(1).epsilon(1e-12));
  }
}

TEST_CASE("the population's members have its correlations") {
  const PlayerDraws members = PlayerDraws::of_population(professional(), joint_key, joint_count);
  const Population& population = *professional().population;
  const auto quick = *population.find_trait("completion_quick");
  const auto deep = *population.find_trait("completion_deep");
  const auto share_of_trait = [&](const std::string& id) {
    const Quantity& quantity = population.quantities[*population.find_quantity(id)];
    const double spread = population.traits[quantity.trait].spread;
    return spread / std::hypot(spread, quantity.own_spread);
  };
  // Rates near one half are nearly linear in their log-odds.
  const double expected = correlation(population, quick, deep) *
                          share_of_trait("quick_middle.completion") *
                          share_of_trait("deep_middle.completion");
  CHECK(correlation_of(members.rate(family("quick_middle"), Rate::completion),
                       members.rate(family("deep_middle"), Rate::completion)) ==
        Approx(expected).margin(four_errors + .01));
}

TEST_CASE("fewer joint draws are the beginning of more, whatever is asked first") {
  const Profile profile = build(demo_chart());
  const PlayerDraws many = PlayerDraws::of_profile(profile, professional(), joint_key, 1000);
  const PlayerDraws few = PlayerDraws::of_profile(profile, professional(), joint_key, 300);
  many.fill(PlayerParts::all);
  const DrawColumn a = few.rate(family("deep_outside"), Rate::completion);
  const DrawColumn b = many.rate(family("deep_outside"), Rate::completion);
  CHECK(std::equal(a.begin(), a.end(), b.begin()));
}

TEST_CASE("a rate turned by hand moves alone") {
  const Profile profile = build(demo_chart());
  Profile turned = profile;
  RateEstimate& boot =
      *turned.families[family("boot")].rates[static_cast<std::size_t>(Rate::completion)];
  boot.mean = 0.75;
  boot.strength = 300;
  const PlayerDraws before =
      PlayerDraws::of_profile(profile, professional(), joint_key, joint_count);
  const PlayerDraws after = PlayerDraws::of_profile(turned, professional(), joint_key, joint_count);
  const auto same = [&](const std::string& id, Rate rate) {
    const DrawColumn a = before.rate(family(id), rate);
    const DrawColumn b = after.rate(family(id), rate);
    return std::equal(a.begin(), a.end(), b.begin());
  };
  CHECK(same("quick_middle", Rate::completion));
  CHECK(same("boot", Rate::sack));
  CHECK_FALSE(same("boot", Rate::completion));
  CHECK(centre_of(after.rate(family("boot"), Rate::completion)) == Approx(0.75).margin(0.01));
}

TEST_CASE("a saved profile brings its joint posterior back") {
  const Profile profile = build(demo_chart());
  const Profile read =
      parse_profile(profile_to_json(profile, professional()), "p.json", professional());
  REQUIRE(read.joint);
  const PlayerDraws a = PlayerDraws::of_profile(profile, professional(), joint_key, 500);
  const PlayerDraws b = PlayerDraws::of_profile(read, professional(), joint_key, 500);
  const DrawColumn x = a.rate(family("intermediate"), Rate::completion);
  const DrawColumn y = b.rate(family("intermediate"), Rate::completion);
  for (std::size_t i = 0; i < x.size(); ++i) REQUIRE(x[i] == Approx(y[i]).epsilon(1e-9));
}

TEST_CASE("many snaps of a lower level say less than as many of one's own, few about as much") {
  const auto strength = [](int of, const std::string& level) {
    return rate(build(throws("quick_outside", of * 2 / 3, of, level)), "quick_outside",
                Rate::completion)
        .strength;
  };
  CHECK(strength(2000, "college") < .7 * strength(2000, "pro"));
  CHECK(strength(30, "college") > .85 * strength(30, "pro"));
}

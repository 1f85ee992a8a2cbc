// The same words whatever the seed.
#include "demo_case.hpp"

#include <ask/memory.hpp>
#include <callfit/profile/draws.hpp>

#include <catch2/catch.hpp>
#include <profile/joint.hpp>

#include <set>
#include <string>
#include <vector>

using namespace callfit;
using namespace callfit::ask;
using namespace callfit::testing;

namespace {

constexpr std::size_t men = 12;
constexpr std::size_t seeds = 20;
constexpr std::size_t pairs = 50;

// What a chart would say of somebody whose rates are known: a tape of so many snaps a rate as the
// population is worth, times `much`.
Evidence tape_of(const PlayerDraws& truth, std::size_t i, const Profile& nobody,
                 const Setting& setting, double much) {
  const JointPlaces places = joint_places(setting);
  Evidence evidence;
  for (std::size_t f = 0; f < nobody.families.size(); ++f)
    for (std::size_t r = 0; r < rate_count; ++r) {
      if (!places.rates[f][r] || !nobody.families[f].rates[r]) continue;
      const double rate = truth.rate(f, static_cast<Rate>(r))[i];
      const double snaps = much * nobody.families[f].rates[r]->strength;
      QuantityCounts tally;
      tally.quantity = *places.rates[f][r];
      tally.counts = {snaps * (1 - rate), snaps * rate};
      evidence.tallies.push_back(tally);
    }
  return evidence;
}

// Members of the population of whom much is known, of some more than of others.
std::vector<Quarterback> members(const Setting& setting) {
  const PlayerDraws truth = PlayerDraws::of_population(setting, {7, 1}, men);
  const Profile nobody = build_profile("Nobody", {}, setting, weighting_of(setting));
  std::vector<Quarterback> out;
  for (std::size_t i = 0; i < men; ++i) {
    Profile profile = nobody;
    profile.name = "Man " + std::to_string(i);
    profile.evidence = tape_of(truth, i, nobody, setting, 0.5 + 0.5 * static_cast<double>(i % 4));
    profile.joint = posterior_of(with_assumed_spreads(*setting.population), profile.evidence);
    apply_joint(profile, setting);
    out.push_back({std::move(profile), nullptr});
  }
  return out;
}

struct Pair {
  std::size_t first = 0, second = 0;
};

std::vector<Pair> some_pairs() {
  static_assert(pairs <= men * (men - 1) / 2);
  std::vector<Pair> out;
  for (std::size_t step = 1; out.size() < pairs; ++step)
    for (std::size_t i = 0; i + step < men && out.size() < pairs; ++i) out.push_back({i, i + step});
  return out;
}

}  // namespace

TEST_CASE("twenty seeds give the same words on nearly all pairs, and say so where they may not",
          "[slow-plain]") {
  const std::vector<Pair> asked = some_pairs();
  std::vector<std::set<std::string>> words(asked.size());
  std::vector<bool> warned(asked.size(), false);
  std::set<Lean> leans;
  for (std::size_t seed = 1; seed <= seeds; ++seed) {
    Case about = demo_case(default_draws);
    about.options.seed = seed;
    about.quarterbacks = members(about.setting);
    Memory memory(std::move(about), 0);
    for (std::size_t i = 0; i < men; ++i) memory.worth(memory.standing({i, 0, {}}));
    for (std::size_t p = 0; p < asked.size(); ++p) {
      const auto difference = difference_of(memory.standing({asked[p].first, 0, {}}),
                                            memory.standing({asked[p].second, 0, {}}), "A", "B");
      const Verdict& ahead = difference.ahead;
      words[p].insert(ahead_words(ahead, "A", "B"));
      leans.insert(ahead.lean());
      if (ahead.near_threshold()) warned[p] = true;
      if (ahead.of_side() > 0.97) CHECK(ahead.lean() == Lean::clear);
      // The interval and the words say the same.
      const Number& net = difference.net_points_per_drive;
      CHECK((ahead.lean() == Lean::clear) == (net.low > 0 || net.high < 0));
    }
  }
  CHECK(leans.size() == 3);  // all three words come up among the pairs
  // Who changes his word lies so near a threshold that the answer says so itself.
  std::size_t same = 0;
  for (std::size_t p = 0; p < words.size(); ++p) {
    if (words[p].size() == 1)
      ++same;
    else
      CHECK(warned[p]);
  }
  CHECK(same >= 49);
}

#include "league.hpp"

#include <callfit/chart/rate.hpp>
#include <callfit/files/files.hpp>
#include <callfit/stats/logit.hpp>

#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <vector>

namespace callfit::testing {
namespace {

// Spreads and three-factor loadings: spreads.csv and factors.csv (core10) of ten professional
// seasons, rounded. Spreads of opponents, games and levels: of the size that was measured, no more.
std::vector<Trait> traits() {
  return {
      {"behind", 0.27, {0.66, 0.19, 0.26}, 0.11, 0.05, 0.8, {0.93, 0.70, 0.25, 0.25}},
      {"quick", 0.15, {0.94, -0.27, 0.19}, 0.11, 0.05, 0.7, {0.93, 0.70, 0.25, 0.25}},
      {"intermediate", 0.17, {0.59, -0.42, 0.42}, 0.11, 0, 0.3, {0.93, 0.70, 0.25, 0.25}},
      {"deep", 0.19, {0.37, -0.07, 0.88}, 0.11, 0, 0.5, {0.93, 0.70, 0.25, 0.25}},
      {"interception", 0.20, {-0.62, -0.05, -0.46}, 0.07, 0, -0.2, {0.80, 0.65, 0.50, 0.25}},
      {"sack", 0.275, {-0.35, 0.65, 0.06}, 0.08, 0.05, -0.6, {0.86, 0.62, 0.65, 0.65}},
      {"scramble", 0.79, {-0.21, 0.85, 0.02}, 0.07, 0.05, 0.1, {0.94, 0.94, 0.92, 0.92}},
      {"yac", 0.16, {-0.03, 0.25, 0.64}, 0.05, 0, 0.2, {0.93, 0.70, 0.25, 0.25}},
      {"fumble", 0.30, {0, 0, 0}, 0, 0, 0, {1, 1, 1, 1}},
  };
}

struct Family {
  std::string id, trait;
  double completion, interception, sack, scramble;
};

// Means: the professional setting, rounded.
const std::vector<Family> families{
    {"quick_middle", "quick", .705, .018, .036, .029},
    {"quick_outside", "quick", .678, .011, .036, .029},
    {"screen", "behind", .831, .006, .022, .010},
    {"intermediate", "intermediate", .550, .031, .096, .056},
    {"boot", "quick", .601, .021, .060, .060},
    {"deep_middle", "deep", .413, .081, .137, .056},
    {"deep_outside", "deep", .347, .044, .137, .056},
};

// P(yards after the catch >= 3, 6, 10, 15): invented.
const std::vector<double> yac_at_least{.50, .25, .13, .06};

void add(Population& league, const std::string& id, const std::string& trait, double own,
         const std::vector<double>& at_least) {
  Quantity quantity{id, *league.find_trait(trait), 1, own, {}};
  for (const double p : at_least) quantity.thresholds.push_back(logit(p));
  league.quantities.push_back(quantity);
}

OtherLevel level(const Population& league, const std::string& id, double shift, double spread) {
  OtherLevel level{id, {}, {}};
  for (const Trait& trait : league.traits) {
    level.shift.push_back(shift * trait.spread);
    level.spread.push_back(spread * trait.spread);
  }
  return level;
}

const std::string& trait_of(const Family& family, Rate rate) {
  static const std::map<Rate, std::string> others{{Rate::interception, "interception"},
                                                  {Rate::sack, "sack"},
                                                  {Rate::scramble, "scramble"},
                                                  {Rate::fumble, "fumble"}};
  return rate == Rate::completion ? family.trait : others.at(rate);
}

}  // namespace

Population league() {
  Population league;
  league.factors = 3;
  league.traits = traits();
  for (const Family& family : families) {
    const auto add_rate = [&](Rate rate, double own, double mean) {
      add(league, family.id + "." + std::string(word(rate)), trait_of(family, rate), own, {mean});
    };
    add_rate(Rate::completion, 0.08, family.completion);
    add_rate(Rate::interception, 0.15, family.interception);
    add_rate(Rate::sack, 0.10, family.sack);
    add_rate(Rate::scramble, 0.20, family.scramble);
    add_rate(Rate::fumble, 0.10, .006);
    add(league, family.id + ".yac", "yac", 0.05, yac_at_least);
  }
  league.levels = {level(league, "college", 0.4, 0.7), level(league, "high_school", 0.8, 1.2)};
  return league;
}

void count(Evidence& evidence, const Population& population, const std::string& quantity,
           double made, double of) {
  evidence.tallies.push_back(
      {*population.find_quantity(quantity), {of - made, made}, 0, {}, {}, {}, {}});
}

Evidence new_starter(const Population& population) {
  Files disk;
  Findings notices;
  const Chart chart =
      disk.chart(std::string(CALLFIT_SOURCE_DIR) + "/profiles/demo/new-starter.csv", notices);
  Evidence evidence;
  std::map<std::string, std::size_t> games;
  std::map<std::tuple<std::size_t, std::size_t, std::size_t>, std::vector<double>> counts;
  const auto tell = [&](const Snap& snap, const std::string& what, std::size_t category) {
    const auto quantity = population.find_quantity(snap.family.str() + "." + what);
    if (!quantity) return;
    const std::size_t game = games.try_emplace(snap.game.str(), games.size()).first->second;
    auto& bins = counts[std::tuple(*quantity, *population.find_level(snap.level.str()), game)];
    bins.resize(population.quantities[*quantity].thresholds.size() + 1);
    ++bins[category];
  };
  for (const Snap& snap : chart.snaps) {
    for (const Rate rate : played_rates)
      if (const auto made = trial(snap, rate, {}))
        tell(snap, std::string(word(rate)), *made ? 1 : 0);
    if (snap.result != Result::complete || !snap.yac) continue;
    constexpr std::array starts{3, 6, 10, 15};
    tell(snap, "yac",
         static_cast<std::size_t>(std::upper_bound(starts.begin(), starts.end(), *snap.yac) -
                                  starts.begin()));
  }
  for (const auto& [key, bins] : counts) {
    const auto [quantity, level, game] = key;
    evidence.tallies.push_back({quantity, bins, 0, level, {}, game, game});
  }
  evidence.games = games.size();
  evidence.opponents.resize(games.size());
  return evidence;
}

}  // namespace callfit::testing

#include <validate/league.hpp>

#include <callfit/base/finding.hpp>
#include <callfit/population/posterior.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

/// The trait of each rate; populations may know only some of them.
constexpr std::array<std::string_view, game_rate_count> trait_of{"completion_behind_line",
                                                                 "completion_quick",
                                                                 "completion_intermediate",
                                                                 "completion_deep",
                                                                 "interception",
                                                                 "sack",
                                                                 "scramble",
                                                                 "yac_short",
                                                                 "yac_intermediate",
                                                                 "sack_fumble",
                                                                 "scramble_gain"};

using ChangeShares = std::array<double, place_change_count>;

// What changed from one season to the next is not in the games. Shares of the moves from season to
// season of 523 pairs of seasons, 189 of them with known callers (quarterback_seasons.csv, column
// new_team, and carry_over.csv, pairs by caller).
constexpr ChangeShares usual_change{0.42, 0.31, 0.27, 0.0};

/// The shares where it is known whether the team changed.
ChangeShares changes(std::optional<bool> new_team) {
  if (!new_team) return usual_change;
  if (*new_team) return {0, 0, 1, 0};
  const double same = usual_change[0] + usual_change[1];
  return {usual_change[0] / same, usual_change[1] / same, 0, 0};
}

}  // namespace

std::optional<GameRate> game_rate_of(std::string_view trait) {
  const auto* const found = std::find(trait_of.begin(), trait_of.end(), trait);
  if (found == trait_of.end()) return std::nullopt;
  return static_cast<GameRate>(found - trait_of.begin());
}

double dropbacks_of(const Games& games) {
  double sum = 0;
  for (const QuarterbackGame* game : games) sum += game->dropbacks;
  return sum;
}

MemberCounts total(const Games& games, std::size_t rate) {
  MemberCounts sum;
  for (const QuarterbackGame* game : games) {
    sum.made += game->counts[rate].made;
    sum.of += game->counts[rate].of;
  }
  return sum;
}

std::map<SeasonKey, Games> by_season(const std::vector<QuarterbackGame>& games) {
  std::map<SeasonKey, Games> seasons;
  for (const QuarterbackGame& game : games)
    seasons[{game.quarterback, game.season}].push_back(&game);
  for (auto& [key, list] : seasons)
    std::stable_sort(list.begin(), list.end(),
                     [](const auto* a, const auto* b) { return a->order < b->order; });
  return seasons;
}

Means means_of(const Games& league) {
  Means means{};
  for (std::size_t r = 0; r < game_rate_count; ++r) {
    const MemberCounts counts = total(league, r);
    means[r] = (counts.made + 0.5) / (counts.of + 1);
  }
  return means;
}

League::League(const Population& population, const std::string& setting)
    : population_(with_assumed_spreads(population)) {
  population_.quantities.clear();
  for (std::size_t r = 0; r < game_rate_count; ++r) {
    const auto trait = population_.find_trait(trait_of[r]);
    if (!trait) continue;
    rates_.push_back(r);
    population_.quantities.push_back(
        {std::string(word(static_cast<GameRate>(r))), *trait, 1, 0, {0.0}});
  }
  if (rates_.empty())
    throw InputError(Finding{{setting, 0, "/population/traits"},
                             "knows none of the traits that games are counted for",
                             "give such as " + std::string(trait_of.front())});
}

double League::game_spread(std::size_t place) const {
  return std::hypot(trait(place).opponent_spread, trait(place).game_spread);
}

Population League::around(const Means& means) const {
  Population out = population_;
  for (std::size_t i = 0; i < rates_.size(); ++i)
    out.quantities[i].thresholds = {
        threshold_of_mean(means[rates_[i]], std::hypot(trait(i).spread, game_spread(i)))};
  return out;
}

TapeSource League::earlier_this_season() const {
  return source_after(population_, PlaceChange::same_caller);
}

TapeSource League::last_season(std::optional<bool> new_team) const {
  const ChangeShares share = changes(new_team);
  TapeSource source;
  for (const Trait& trait : population_.traits) {
    double kept = 0;
    for (std::size_t c = 0; c < place_change_count; ++c) kept += share[c] * trait.carries_over[c];
    source.carries_over.push_back(kept);
  }
  return source;
}

Evidence evidence_of(const League& league, const Games& games, const TapeSource& source) {
  Evidence evidence;
  evidence.games = games.size();
  evidence.sources = {source};
  for (std::size_t g = 0; g < games.size(); ++g)
    for (std::size_t i = 0; i < league.rates().size(); ++i) {
      const MemberCounts& counts = games[g]->counts[league.rates()[i]];
      if (!(counts.of > 0)) continue;
      evidence.tallies.push_back({i, {counts.of - counts.made, counts.made}, 0, {}, 0, {}, g});
    }
  return evidence;
}

}  // namespace callfit

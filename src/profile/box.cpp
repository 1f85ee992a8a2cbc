#include <profile/box.hpp>

#include <callfit/population/posterior.hpp>
#include <callfit/stats/logit.hpp>
#include <population/latent.hpp>

#include <fmt/format.h>

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

constexpr std::array box_rates{Rate::completion, Rate::interception, Rate::sack, Rate::scramble};

double mean_of(const FamilyPopulation& family, Rate rate) {
  const auto& known = family.rates[static_cast<std::size_t>(rate)];
  return known ? known->mean : 0.0;
}

double games_of(const BoxCount& count, double games) {
  return games > 0 ? games : std::max(1.0, count.of / usual_throws_of_game);
}

}  // namespace

MixtureCounts box_mixture(BoxRate rate, const BoxCount& count, bool scrambles_known,
                          const Setting& setting, const std::vector<double>& calls) {
  const Rate what = box_rates[static_cast<std::size_t>(rate)];
  const bool of_throws = rate == BoxRate::completion || rate == BoxRate::interception;
  MixtureCounts mixture{{}, count.made, count.of};
  double total = 0;
  for (std::size_t f = 0; f < setting.families.size(); ++f) {
    const FamilyPopulation& family = setting.families[f];
    const auto quantity =
        setting.population->find_quantity(family.id + '.' + std::string(word(what)));
    const double called = f < calls.size() ? calls[f] : 1.0;
    if (family.kind != FamilyKind::pass || !quantity || !(called > 0)) continue;
    const double sack = mean_of(family, Rate::sack);
    const double scramble = mean_of(family, Rate::scramble);
    double shift = 0;
    double share = called;
    if (of_throws) share *= 1 - sack - scramble;
    if (rate == BoxRate::sack && !scrambles_known) {
      share *= 1 - scramble;
      shift = logit(sack / (1 - scramble)) - logit(sack);
    }
    mixture.parts.push_back({*quantity, share, shift});
    total += share;
  }
  for (MixturePart& part : mixture.parts) part.share /= total;
  return mixture;
}

void BoxTally::add(const Snap& snap) {
  if (!is_dropback(snap.result)) return;
  games_[snap.game.str()] = true;
  throws_ += is_throw(snap.result) ? 1 : 0;
  completions_ += snap.result == Result::complete ? 1 : 0;
  interceptions_ += snap.result == Result::intercepted ? 1 : 0;
  sacks_ += snap.result == Result::sack ? 1 : 0;
  scrambles_ += snap.result == Result::scramble ? 1 : 0;
}

BoxCounts BoxTally::counts(bool scrambles_known) const {
  const double dropbacks = throws_ + sacks_ + (scrambles_known ? scrambles_ : 0);
  return {BoxCount{completions_, throws_}, BoxCount{interceptions_, throws_},
          BoxCount{sacks_, dropbacks}, BoxCount{scrambles_, dropbacks}};
}

bool is_of(const Snap& snap, const SeasonTotals& season) {
  return snap.season == season.season && snap.level == season.level &&
         (season.team.empty() || snap.team == season.team);
}

namespace {

// How far the charted part lies from the rest, in standard errors: chance, and what opponents and
// games do to both.
double errors_apart(const BoxCount& charted, double games, const BoxCount& rest,
                    const MixtureCounts& mixture, const Population& population) {
  if (!(charted.of > 0)) return 0;
  const double p = (charted.made + rest.made) / (charted.of + rest.of);
  const double binomial = p * (1 - p);
  const double by_games = binomial * binomial * variance_of_games(population, mixture) *
                          (1 / games + 1 / mixture.games);
  const double error = std::sqrt(binomial * (1 / charted.of + 1 / rest.of) + by_games);
  return error > 0 ? (charted.made / charted.of - rest.made / rest.of) / error : 0.0;
}

}  // namespace

std::vector<SeasonDeparture> add_seasons(const Setting& setting, const Around& around,
                                         const std::vector<BoxTally>& charted,
                                         const TapeSources& sources, Evidence& evidence) {
  constexpr double beyond_chance = 2.576;  // 1 in 100
  std::vector<SeasonDeparture> departures;
  for (std::size_t s = 0; s < around.seasons.size(); ++s) {
    const SeasonTotals& season = around.seasons[s];
    const bool scrambles = season.totals[static_cast<std::size_t>(BoxRate::scramble)].has_value();
    const BoxCounts seen = charted[s].counts(scrambles);
    const auto games = static_cast<double>(charted[s].games());
    for (std::size_t r = 0; r < box_rate_count; ++r) {
      if (!season.totals[r]) continue;
      const BoxCount rest{season.totals[r]->made - seen[r]->made,
                          season.totals[r]->of - seen[r]->of};
      if (!(rest.of > 0)) continue;
      const auto rate = static_cast<BoxRate>(r);
      MixtureCounts mixture = box_mixture(rate, rest, scrambles, setting, around.calls);
      mixture.games = games_of(rest, season.games - games);
      if (season.level != setting.level)
        mixture.level = setting.population->find_level(season.level);
      mixture.source = sources.of(season);
      const double apart = errors_apart(*seen[r], games, rest, mixture, *setting.population);
      if (std::abs(apart) > beyond_chance)
        departures.push_back({season.season, season.level, rate, *seen[r], rest, apart});
      evidence.mixtures.push_back(std::move(mixture));
    }
  }
  return departures;
}

std::vector<SeasonFault> faults_of(const std::vector<SeasonTotals>& seasons,
                                   const std::vector<Chart>& charts) {
  constexpr std::array made_keys{"completions", "interceptions", "sacks", "scrambles"};
  std::vector<SeasonFault> faults;
  for (std::size_t s = 0; s < seasons.size(); ++s) {
    const SeasonTotals& season = seasons[s];
    const bool scrambles = season.totals[static_cast<std::size_t>(BoxRate::scramble)].has_value();
    BoxTally tally;
    double nameless = 0;
    for (const Chart& chart : charts)
      for (const Snap& snap : chart.snaps) {
        if (is_of(snap, season)) tally.add(snap);
        if (snap.season.empty() && snap.level == season.level) ++nameless;
      }
    if (nameless > 0)
      faults.push_back(
          {s, "season",
           fmt::format("{} charted snaps of {} have no season", nameless, season.level),
           "fill in the chart's column season, so that none counts twice"});
    const BoxCounts seen = tally.counts(scrambles);
    for (std::size_t r = 0; r < box_rate_count; ++r) {
      if (!season.totals[r]) continue;
      const auto [made, of] = *season.totals[r];
      if (seen[r]->made > made)
        faults.push_back({s, made_keys[r],
                          fmt::format("{} in all, {} charted", made, seen[r]->made),
                          "give the whole season's, charted games and all"});
      else if (of - made < seen[r]->of - seen[r]->made)
        faults.push_back(
            {s, "attempts",
             fmt::format("{} of {} in all, {} of {} charted", made, of, seen[r]->made, seen[r]->of),
             "give the whole season's, charted games and all"});
    }
  }
  return faults;
}

namespace {

// A league of defences: what an opponent does to a trait is the defence's trait, and the
// quarterbacks that it meets are its opponents.
Population league_of_defences(const Population& population) {
  Population out = population;
  out.factors = 1;
  for (Trait& trait : out.traits) {
    const double passing = trait.loadings.empty() ? 0.0 : trait.loadings.front();
    std::swap(trait.spread, trait.opponent_spread);
    trait.loadings = {trait.opponent_loading};
    trait.opponent_loading = passing;
  }
  for (Quantity& quantity : out.quantities) quantity.own_spread = 0;
  for (OtherLevel& level : out.levels) std::fill(level.spread.begin(), level.spread.end(), 0.0);
  for (std::size_t t = 0; t < out.traits.size(); ++t)
    out.quantities.push_back({out.traits[t].id, t, 1, 0, {0.0}, false, false});
  return out;
}

std::vector<std::optional<OpponentEffect>> effects_allowed(const OpponentRecord& record,
                                                           const Setting& setting,
                                                           const std::vector<double>& calls) {
  const Population population = with_assumed_spreads(*setting.population);
  const Population defences = league_of_defences(population);
  const bool scrambles = record.allowed[static_cast<std::size_t>(BoxRate::scramble)].has_value();
  Evidence evidence;
  for (std::size_t r = 0; r < box_rate_count; ++r) {
    if (!record.allowed[r]) continue;
    MixtureCounts mixture =
        box_mixture(static_cast<BoxRate>(r), *record.allowed[r], scrambles, setting, calls);
    mixture.games = games_of(*record.allowed[r], record.games);
    if (!record.level.empty() && record.level != setting.level)
      mixture.level = population.find_level(record.level);
    evidence.mixtures.push_back(std::move(mixture));
  }
  const Posterior posterior = posterior_of(defences, evidence);
  std::vector<std::optional<OpponentEffect>> effects;
  for (std::size_t t = 0; t < population.traits.size(); ++t) {
    const Marginal& effect = posterior.marginals[population.quantities.size() + t];
    effects.push_back(OpponentEffect{effect.mean, effect.sd});
  }
  return effects;
}

// A defence's place is that of what its effects on all traits share; a good one is below 0 there,
// since more completions stand above it. Uncertainty of the place to first order.
std::vector<std::optional<OpponentEffect>> effects_ranked(const OpponentRecord& record,
                                                          const Population& population) {
  const boost::math::normal normal;
  const double score = -quantile(normal, record.better_than.value());
  const double open = std::min(1.0, record.give_or_take / pdf(normal, score));
  std::vector<std::optional<OpponentEffect>> effects;
  for (const Trait& trait : population.traits) {
    const double loading = trait.opponent_loading;
    const double left = 1 - loading * loading * (1 - open * open);
    effects.push_back(OpponentEffect{trait.opponent_spread * loading * score,
                                     trait.opponent_spread * std::sqrt(std::max(0.0, left))});
  }
  return effects;
}

}  // namespace

Opponent opponent_of(const OpponentRecord& record, const Setting& setting,
                     const std::vector<double>& calls) {
  return {record.name, record.better_than
                           ? effects_ranked(record, with_assumed_spreads(*setting.population))
                           : effects_allowed(record, setting, calls)};
}

std::vector<OpponentEffect> coming_of(const std::vector<OpponentRecord>& records,
                                      const Setting& setting, const std::vector<double>& calls) {
  if (records.empty()) return {};
  std::vector<OpponentEffect> mean(setting.population->traits.size());
  const auto count = static_cast<double>(records.size());
  for (const OpponentRecord& record : records) {
    const Opponent opponent = opponent_of(record, setting, calls);
    for (std::size_t t = 0; t < mean.size(); ++t) {
      mean[t].mean += opponent.effects[t]->mean / count;
      mean[t].spread = std::hypot(mean[t].spread, opponent.effects[t]->spread / count);
    }
  }
  return mean;
}

}  // namespace callfit

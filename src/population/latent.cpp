#include "population/latent.hpp"

#include <callfit/stats/logit.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

namespace callfit {
namespace {

double rest_of(double correlation) {
  return std::sqrt(std::max(0.0, 1 - correlation * correlation));
}

/// A mixture's log-odds, and their slope along each part's.
struct Tangent {
  double log_odds = 0;
  std::vector<double> slopes;
};

Tangent tangent_at(const Population& population, const MixtureCounts& mixture,
                   const std::vector<double>& x) {
  Tangent out;
  double chance = 0;
  for (std::size_t i = 0; i < mixture.parts.size(); ++i) {
    const MixturePart& part = mixture.parts[i];
    const double p =
        logistic(population.quantities[part.quantity].thresholds.front() + part.shift + x[i]);
    chance += part.share * p;
    out.slopes.push_back(part.share * p * (1 - p));
  }
  for (double& slope : out.slopes) slope /= chance * (1 - chance);
  out.log_odds = logit(chance);
  return out;
}

// What a place in a trait's block stands for.
enum class Kind { trait, quantity, level, opponent, game, mixture };

class Builder {
 public:
  Builder(const Population& population, const Evidence& evidence)
      : population_(population), evidence_(evidence) {
    const std::size_t factors = population.factors * (1 + evidence.sources.size());
    const bool opponents_agree =
        std::any_of(population.traits.begin(), population.traits.end(),
                    [](const Trait& trait) { return trait.opponent_loading != 0; });
    first_opponent_ = static_cast<Eigen::Index>(factors);
    latent_.hub = first_opponent_ + (opponents_agree ? count_opponents() : 0);
    for (const MixtureCounts& mixture : evidence.mixtures) move_into_hub(mixture);
    latent_.blocks.assign(population.traits.size(), 0);
    met_in_.resize(evidence.opponents.size());
    for (const QuantityCounts& tally : evidence.tallies)
      if (tally.opponent && tally.game) met_in_[*tally.opponent].insert(*tally.game);
  }

  Latent build(const Tangents& at) {
    for (std::size_t q = 0; q < population_.quantities.size(); ++q)
      latent_.quantities.push_back(quantity_form(q, std::nullopt));
    for (const QuantityCounts& tally : evidence_.tallies)
      if (!population_.quantities[tally.quantity].follows &&
          std::accumulate(tally.counts.begin(), tally.counts.end(), 0.0) > 0)
        add(tally);
    for (std::size_t m = 0; m < evidence_.mixtures.size(); ++m)
      add(m, m < at.size() ? at[m] : std::vector<double>());
    return std::move(latent_);
  }

 private:
  using Key = std::tuple<std::size_t, Kind, std::size_t, std::size_t>;

  void move_into_hub(const MixtureCounts& mixture) {
    const auto move = [this](const Key& key) {
      if (in_hub_.try_emplace(key, latent_.hub).second) ++latent_.hub;
    };
    for (const MixturePart& part : mixture.parts) {
      const std::size_t t = population_.quantities[part.quantity].trait;
      move({t, Kind::trait, 0, 0});
      if (mixture.source) move({t, Kind::trait, 1 + *mixture.source, 0});
      move({t, Kind::quantity, part.quantity, 0});
      if (mixture.level)
        move({t, Kind::level, *mixture.level, mixture.source ? 1 + *mixture.source : 0});
    }
  }

  /// slope u + own of a quantity, at the place that is asked about or at a source.
  LinearForm quantity_form(std::size_t quantity, std::optional<std::size_t> source) {
    const Quantity& what = population_.quantities[quantity];
    LinearForm form{what.trait, 0, Eigen::VectorXd::Zero(latent_.hub), {}};
    const double kept = source ? evidence_.sources[*source].carries_over[what.trait] : 1.0;
    add_trait(form, what.slope * kept, 0);
    if (source) add_trait(form, what.slope * rest_of(kept), 1 + *source);
    add_part(form, Kind::quantity, quantity, 0, what.own_spread);
    return form;
  }

  /// The trait as it came out of the draw with that number: 0 is here, others are what is new at a
  /// source.
  void add_trait(LinearForm& form, double weight, std::size_t number) {
    if (weight == 0) return;
    const Trait& trait = population_.traits[form.trait];
    double common = 0;
    for (std::size_t k = 0; k < population_.factors; ++k) {
      const double loading = trait.loadings[k];
      form.hub(static_cast<Eigen::Index>(number * population_.factors + k)) =
          weight * trait.spread * loading;
      common += loading * loading;
    }
    add_part(form, Kind::trait, number, 0,
             weight * trait.spread * std::sqrt(std::max(0.0, 1 - common)));
  }

  void add(const QuantityCounts& tally) {
    LinearForm form = quantity_form(tally.quantity, tally.source);
    const double slope = population_.quantities[tally.quantity].slope;
    form.offset = tally.shift;
    if (tally.level) add_level(form, slope, *tally.level, tally.source);
    add_opposition(form, slope, tally);
    latent_.rows.push_back(
        {form,
         CategoryLikelihood(population_.quantities[tally.quantity].thresholds, tally.counts)});
  }

  // The tangent of log(P / (1 - P)), P the chance of the mixture.
  void add(std::size_t number, const std::vector<double>& at) {
    const MixtureCounts& mixture = evidence_.mixtures[number];
    std::vector<LinearForm> parts;
    for (const MixturePart& part : mixture.parts) {
      parts.push_back(quantity_form(part.quantity, mixture.source));
      if (mixture.level)
        add_level(parts.back(), population_.quantities[part.quantity].slope, *mixture.level,
                  mixture.source);
    }
    std::vector<double> x = at;
    if (x.empty())
      for (const LinearForm& part : parts) x.push_back(part.offset);
    const Tangent tangent = tangent_at(population_, mixture, x);
    LinearForm form{parts.front().trait, tangent.log_odds, Eigen::VectorXd::Zero(latent_.hub), {}};
    for (std::size_t i = 0; i < parts.size(); ++i) {
      form.hub += tangent.slopes[i] * parts[i].hub;
      form.offset += tangent.slopes[i] * (parts[i].offset - x[i]);
    }
    if (mixture.games > 0)
      add_part(form, Kind::mixture, number, 0,
               std::sqrt(variance_of_games(population_, mixture) / mixture.games));
    latent_.rows.push_back(
        {form, CategoryLikelihood({0.0}, {mixture.of - mixture.made, mixture.made})});
    latent_.mixtures.push_back(std::move(parts));
  }

  void add_level(LinearForm& form, double slope, std::size_t level,
                 std::optional<std::size_t> source) {
    const OtherLevel& other = population_.levels[level];
    form.offset += slope * other.shift[form.trait];
    add_part(form, Kind::level, level, source ? 1 + *source : 0, slope * other.spread[form.trait]);
  }

  /// Opponents who are named and, of games whose opponent is not, one each.
  Eigen::Index count_opponents() {
    auto count = static_cast<Eigen::Index>(evidence_.opponents.size());
    for (const QuantityCounts& tally : evidence_.tallies)
      if (tally.game && !tally.opponent && strangers_.try_emplace(*tally.game, count).second)
        ++count;
    return count;
  }

  // An opponent who was met in one game cannot be told from that game: one normal stands for what
  // both do to the trait alone.
  void add_opposition(LinearForm& form, double slope, const QuantityCounts& tally) {
    if (!tally.opponent && !tally.game) return;
    const Trait& trait = population_.traits[form.trait];
    OpponentEffect effect{0, trait.opponent_spread};
    if (tally.opponent) {
      const auto& effects = evidence_.opponents[*tally.opponent].effects;
      if (form.trait < effects.size() && effects[form.trait]) effect = *effects[form.trait];
    }
    form.offset += slope * effect.mean;
    if (trait.opponent_loading != 0) {
      const Eigen::Index opponent =
          tally.opponent ? static_cast<Eigen::Index>(*tally.opponent) : strangers_.at(*tally.game);
      form.hub(first_opponent_ + opponent) = slope * effect.spread * trait.opponent_loading;
      effect.spread *= rest_of(trait.opponent_loading);
    }
    if (tally.opponent && (!tally.game || met_in_[*tally.opponent].size() > 1)) {
      add_part(form, Kind::opponent, *tally.opponent, 0, slope * effect.spread);
      effect.spread = 0;
    }
    if (tally.game)
      add_part(form, Kind::game, *tally.game, 0,
               slope * std::hypot(effect.spread, trait.game_spread));
  }

  void add_part(LinearForm& form, Kind kind, std::size_t number, std::size_t second,
                double weight) {
    if (weight == 0) return;
    if (const auto hub = in_hub_.find({form.trait, kind, number, second}); hub != in_hub_.end()) {
      form.hub(hub->second) += weight;
      return;
    }
    const auto [at, fresh] =
        places_.try_emplace({form.trait, kind, number, second}, latent_.blocks[form.trait]);
    if (fresh) ++latent_.blocks[form.trait];
    form.own.push_back({at->second, weight});
  }

  const Population& population_;
  const Evidence& evidence_;
  Eigen::Index first_opponent_ = 0;  ///< in the hub
  std::map<std::size_t, Eigen::Index> strangers_;
  std::vector<std::set<std::size_t>> met_in_;
  std::map<Key, Eigen::Index> in_hub_;
  std::map<Key, Eigen::Index> places_;
  Latent latent_;
};

}  // namespace

double variance_of_games(const Population& population, const MixtureCounts& mixture) {
  const Tangent tangent =
      tangent_at(population, mixture, std::vector<double>(mixture.parts.size(), 0.0));
  std::map<std::size_t, double> traits;
  for (std::size_t i = 0; i < mixture.parts.size(); ++i) {
    const Quantity& quantity = population.quantities[mixture.parts[i].quantity];
    traits[quantity.trait] += tangent.slopes[i] * quantity.slope;
  }
  double common = 0;
  double variance = 0;
  for (const auto& [t, weight] : traits) {
    const Trait& trait = population.traits[t];
    const double alone = trait.opponent_spread * rest_of(trait.opponent_loading);
    common += weight * trait.opponent_spread * trait.opponent_loading;
    variance += weight * weight * (alone * alone + trait.game_spread * trait.game_spread);
  }
  return variance + common * common;
}

Latent latent_of(const Population& population, const Evidence& evidence, const Tangents& at) {
  return Builder(population, evidence).build(at);
}

}  // namespace callfit

#include "chain.hpp"

#include <callfit/base/random.hpp>
#include <callfit/stats/interval.hpp>

#include <boost/random/normal_distribution.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace callfit::testing {
namespace {

double logistic_of(double x) { return 1 / (1 + std::exp(-x)); }

/// The quarterback that a vector of standard normals makes, read off in a fixed order.
class Model {
 public:
  Model(const Population& population, const Evidence& evidence)
      : population_(population), evidence_(evidence) {}

  // Everything of every kind gets a normal of its own, needed or not.
  std::size_t size() const {
    const std::size_t traits = population_.traits.size();
    const std::size_t places = 1 + evidence_.sources.size();
    return places * (population_.factors + traits + population_.levels.size() * traits) +
           population_.quantities.size() +
           (evidence_.opponents.size() + 2 * evidence_.games) * traits +
           evidence_.opponents.size() + evidence_.games + unseen_games() * (1 + 2 * traits);
  }

  void read(const std::vector<double>& x) {
    next_ = x.begin();
    const std::size_t traits = population_.traits.size();
    here_ = fresh();
    there_.clear();
    for (const TapeSource& source : evidence_.sources) {
      std::vector<double> u = fresh();
      for (std::size_t t = 0; t < traits; ++t) {
        const double r = source.carries_over[t];
        u[t] = r * here_[t] + std::sqrt(1 - r * r) * u[t];
      }
      there_.push_back(u);
    }
    own_.clear();
    for (const Quantity& quantity : population_.quantities)
      own_.push_back(quantity.own_spread * *next_++);
    const std::size_t places = 1 + evidence_.sources.size();
    levels_.assign(population_.levels.size(), {});
    for (std::size_t l = 0; l < levels_.size(); ++l)
      for (std::size_t p = 0; p < places; ++p)
        levels_[l].push_back(
            per_trait([&](std::size_t t) { return population_.levels[l].spread[t]; }));
    opponents_.clear();
    for (const Opponent& opponent : evidence_.opponents) {
      auto effect = effects_of_one([&](std::size_t t) {
        return t < opponent.effects.size() && opponent.effects[t] ? opponent.effects[t]->spread
                                                                  : opponent_spread(t);
      });
      for (std::size_t t = 0; t < opponent.effects.size(); ++t)
        if (opponent.effects[t]) effect[t] += opponent.effects[t]->mean;
      opponents_.push_back(effect);
    }
    games_.clear();
    strangers_.clear();
    for (std::size_t g = 0; g < evidence_.games; ++g) {
      games_.push_back(per_trait([&](std::size_t t) { return population_.traits[t].game_spread; }));
      strangers_.push_back(effects_of_one([&](std::size_t t) { return opponent_spread(t); }));
    }
    unseen_.clear();
    for (std::size_t g = 0; g < unseen_games(); ++g) {
      unseen_.push_back(effects_of_one([&](std::size_t t) { return opponent_spread(t); }));
      const auto game = per_trait([&](std::size_t t) { return population_.traits[t].game_spread; });
      for (std::size_t t = 0; t < traits; ++t) unseen_.back()[t] += game[t];
    }
  }

  double value(std::size_t quantity) const {
    const Quantity& what = population_.quantities[quantity];
    return what.slope * here_[what.trait] + own_[quantity];
  }

  double log_likelihood() const {
    double sum = 0;
    for (const QuantityCounts& tally : evidence_.tallies) {
      const Quantity& what = population_.quantities[tally.quantity];
      const std::size_t t = what.trait;
      double u = tally.source ? there_[*tally.source][t] : here_[t];
      if (tally.level)
        u += population_.levels[*tally.level].shift[t] +
             levels_[*tally.level][tally.source ? 1 + *tally.source : 0][t];
      if (tally.opponent)
        u += opponents_[*tally.opponent][t];
      else if (tally.game)
        u += strangers_[*tally.game][t];
      if (tally.game) u += games_[*tally.game][t];
      const double shift = what.slope * u + own_[tally.quantity] + tally.shift;
      double above = 1;
      for (std::size_t c = 0; c < tally.counts.size(); ++c) {
        const double next =
            c < what.thresholds.size() ? logistic_of(what.thresholds[c] + shift) : 0.0;
        if (tally.counts[c] > 0) sum += tally.counts[c] * std::log(above - next);
        above = next;
      }
    }
    auto game = unseen_.begin();
    for (const MixtureCounts& mixture : evidence_.mixtures) {
      // Every game has its own opponent; the whole is a binomial of the games' mean chance.
      const auto games = static_cast<std::size_t>(mixture.games);
      double chance = 0;
      for (std::size_t g = 0; g < std::max<std::size_t>(games, 1); ++g)
        chance += chance_of(mixture, games > 0 ? &*game++ : nullptr);
      chance /= static_cast<double>(std::max<std::size_t>(games, 1));
      sum += mixture.made * std::log(chance) + (mixture.of - mixture.made) * std::log(1 - chance);
    }
    return sum;
  }

 private:
  std::size_t unseen_games() const {
    double games = 0;
    for (const MixtureCounts& mixture : evidence_.mixtures) games += mixture.games;
    return static_cast<std::size_t>(games);
  }

  double chance_of(const MixtureCounts& mixture, const std::vector<double>* game) const {
    double chance = 0;
    for (const MixturePart& part : mixture.parts) {
      const Quantity& what = population_.quantities[part.quantity];
      const std::size_t t = what.trait;
      double u = mixture.source ? there_[*mixture.source][t] : here_[t];
      if (mixture.level)
        u += population_.levels[*mixture.level].shift[t] +
             levels_[*mixture.level][mixture.source ? 1 + *mixture.source : 0][t];
      if (game != nullptr) u += (*game)[t];
      chance += part.share *
                logistic_of(what.thresholds[0] + part.shift + what.slope * u + own_[part.quantity]);
    }
    return chance;
  }

  double opponent_spread(std::size_t t) const { return population_.traits[t].opponent_spread; }

  std::vector<double> fresh() {
    std::vector<double> z(population_.factors);
    for (double& value : z) value = *next_++;
    std::vector<double> u;
    for (const Trait& trait : population_.traits) {
      double of_factors = 0;
      double common = 0;
      for (std::size_t k = 0; k < z.size(); ++k) {
        of_factors += trait.loadings[k] * z[k];
        common += trait.loadings[k] * trait.loadings[k];
      }
      u.push_back(trait.spread * (of_factors + std::sqrt(std::max(0.0, 1 - common)) * *next_++));
    }
    return u;
  }

  template <class Spread>
  std::vector<double> effects_of_one(Spread spread) {
    const double common = *next_++;
    std::vector<double> values;
    for (std::size_t t = 0; t < population_.traits.size(); ++t) {
      const double loading = population_.traits[t].opponent_loading;
      values.push_back(spread(t) *
                       (loading * common + std::sqrt(1 - loading * loading) * *next_++));
    }
    return values;
  }

  template <class Spread>
  std::vector<double> per_trait(Spread spread) {
    std::vector<double> values;
    for (std::size_t t = 0; t < population_.traits.size(); ++t)
      values.push_back(spread(t) * *next_++);
    return values;
  }

  const Population& population_;
  const Evidence& evidence_;
  std::vector<double>::const_iterator next_;
  std::vector<double> here_, own_;
  std::vector<std::vector<double>> there_, opponents_, games_, strangers_, unseen_;
  std::vector<std::vector<std::vector<double>>> levels_;
};

Sampled summary(std::vector<double> values) {  // a copy, to sort
  const auto n = static_cast<double>(values.size());
  Sampled out;
  out.mean = std::accumulate(values.begin(), values.end(), 0.0) / n;
  double square = 0;
  for (const double value : values) square += (value - out.mean) * (value - out.mean);
  out.sd = std::sqrt(square / n);
  constexpr std::size_t batches = 40;
  const std::size_t length = values.size() / batches;
  double between = 0;
  for (std::size_t b = 0; b < batches; ++b) {
    const auto from = values.begin() + static_cast<std::ptrdiff_t>(b * length);
    const double mean = std::accumulate(from, from + static_cast<std::ptrdiff_t>(length), 0.0) /
                        static_cast<double>(length);
    between += (mean - out.mean) * (mean - out.mean);
  }
  out.error = std::sqrt(between / (batches - 1) / batches);
  std::sort(values.begin(), values.end());
  out.low = quantile_of(values, 0.05);
  out.high = quantile_of(values, 0.95);
  return out;
}

double correlation_of(const std::vector<double>& a, const Sampled& of_a,
                      const std::vector<double>& b, const Sampled& of_b) {
  double product = 0;
  for (std::size_t i = 0; i < a.size(); ++i) product += (a[i] - of_a.mean) * (b[i] - of_b.mean);
  return product / static_cast<double>(a.size()) / (of_a.sd * of_b.sd);
}

}  // namespace

std::vector<Sampled> sample(const Population& population, const Evidence& evidence,
                            std::size_t steps, std::uint64_t seed) {
  Model model(population, evidence);
  Stream stream(seed, Purpose::sampling, 0);
  boost::random::normal_distribution<> normal;
  std::vector<double> x(model.size()), other(model.size()), turned(model.size());
  for (double& value : x) value = normal(stream);
  model.read(x);
  double height = model.log_likelihood();
  std::vector<std::vector<double>> kept(population.quantities.size());
  for (std::size_t step = 0; step < steps; ++step) {
    for (double& value : other) value = normal(stream);
    const double floor = height + std::log(1 - stream.uniform());
    constexpr double circle = 6.283185307179586;
    double angle = circle * stream.uniform();
    double low = angle - circle;
    double high = angle;
    while (true) {
      for (std::size_t i = 0; i < x.size(); ++i)
        turned[i] = x[i] * std::cos(angle) + other[i] * std::sin(angle);
      model.read(turned);
      height = model.log_likelihood();
      if (height > floor) break;
      (angle < 0 ? low : high) = angle;
      angle = low + (high - low) * stream.uniform();
    }
    x.swap(turned);
    if (step < steps / 10) continue;
    for (std::size_t q = 0; q < kept.size(); ++q) kept[q].push_back(model.value(q));
  }
  std::vector<Sampled> out;
  for (const auto& values : kept) {
    out.push_back(summary(values));
    out.back().with_first = correlation_of(kept.front(), out.front(), values, out.back());
  }
  return out;
}

}  // namespace callfit::testing

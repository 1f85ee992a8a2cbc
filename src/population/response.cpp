#include <callfit/population/response.hpp>

#include "population/likelihood.hpp"
#include "population/settled.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>

namespace callfit {
namespace {

bool has_counts(const QuantityCounts& tally) {
  return std::accumulate(tally.counts.begin(), tally.counts.end(), 0.0) > 0;
}

// Mean first and second derivatives of one count of each category, its log-odds normal.
void add_slopes(const std::vector<double>& thresholds, double mean, double sd, TallyResponse& out) {
  constexpr int half = 24;
  constexpr double step = 0.25;
  const double total = std::sqrt(2 * M_PI) / step;
  std::vector<double> one(thresholds.size() + 1, 0.0);
  for (std::size_t c = 0; c < one.size(); ++c) {
    one[c] = 1;
    const CategoryLikelihood likelihood(thresholds, one);
    one[c] = 0;
    double slope = 0, bend = 0;
    for (int i = -half; i <= half; ++i) {
      const double score = step * i;
      const double weight = std::exp(-score * score / 2) / total;
      const auto at = likelihood.slopes_at(mean + sd * score);
      slope += weight * at.slope;
      bend -= weight * at.curvature;
    }
    out.slope.push_back(slope);
    out.bend.push_back(bend);
  }
}

/// Rows of settled evidence, each with its covariance with every quantity. What is skewed answers
/// more to one side: to first order as in posterior_of(), of the rows of the same quantity.
class Rows {
 public:
  /// Which quantity each row is of; nothing for a mixture.
  Rows(const Settled& known, const std::vector<std::optional<std::size_t>>& quantity_of)
      : known_(known), normal_(known.propagated.normal), quantity_of_(quantity_of) {
    for (const LinearForm& form : known.latent.quantities)
      quantities_.push_back(seen(normal_, form));
    for (std::size_t row = 0; row < quantity_of.size(); ++row) {
      rows_.push_back(seen(normal_, known.latent.rows[row].form));
      if (quantity_of[row]) alike_[*quantity_of[row]].push_back(row);
    }
  }

  TallyResponse at(std::size_t row, const std::vector<double>& thresholds) const {
    const Seen& tally = rows_[row];
    TallyResponse out;
    for (const Seen& quantity : quantities_)
      out.covariance.push_back(covariance(normal_, tally, quantity));
    const LinearForm& form = *tally.form;
    const double mean = form.offset + normal_.own_mean(form) + tally.hub.dot(normal_.hub_mean);
    const double variance = std::max(0.0, covariance(normal_, tally, tally));
    add_slopes(thresholds, mean, std::sqrt(variance), out);
    const double lean = variance > 0 ? third_cumulant(row) / (2 * variance) : 0;
    for (std::size_t c = 0; c < out.slope.size(); ++c) out.slope[c] += lean * out.bend[c];
    return out;
  }

  double variance(std::size_t quantity) const {
    return covariance(normal_, quantities_[quantity], quantities_[quantity]);
  }
  double mean(std::size_t quantity) const {
    const LinearForm& form = known_.latent.quantities[quantity];
    return normal_.own_mean(form) + quantities_[quantity].hub.dot(normal_.hub_mean);
  }

 private:
  double third_cumulant(std::size_t row) const {
    if (!quantity_of_[row]) return 0;
    double third = 0;
    for (const std::size_t other : alike_.at(*quantity_of_[row])) {
      const double variance = known_.propagated.row_variance[other];
      if (!(variance > 0)) continue;
      const double share = covariance(normal_, rows_[row], rows_[other]) / variance;
      third += known_.propagated.third_cumulant[other] * share * share * share;
    }
    return third;
  }

  const Settled& known_;
  const JointNormal& normal_;
  std::vector<std::optional<std::size_t>> quantity_of_;
  std::map<std::size_t, std::vector<std::size_t>> alike_;
  std::vector<Seen> quantities_, rows_;
};

// The quantities of the rows that evidence makes, in their order.
std::vector<std::optional<std::size_t>> rows_of(const Population& population,
                                                const Evidence& evidence) {
  std::vector<std::optional<std::size_t>> rows;
  for (const QuantityCounts& tally : evidence.tallies)
    if (!population.quantities[tally.quantity].follows && has_counts(tally))
      rows.emplace_back(tally.quantity);
  rows.resize(rows.size() + evidence.mixtures.size());
  return rows;
}

// The tallies of a quantity that follows, in the league where they move it alone; returns what is
// left of its variance.
double respond_alone(const Population& population, const Evidence& evidence, std::size_t quantity,
                     const Rows& rows, Response& out) {
  const double variance = rows.variance(quantity);
  const Evidence own = alone(evidence, population, quantity, rows.mean(quantity));
  if (own.tallies.empty() || !(variance > 0)) return 1;
  const Population league = alone(population, quantity, std::sqrt(variance));
  const Settled known = settled(league, own);
  const Rows alone_rows(known, rows_of(league, own));
  std::size_t row = 0;
  for (std::size_t j = 0; j < evidence.tallies.size(); ++j) {
    if (evidence.tallies[j].quantity != quantity || !has_counts(evidence.tallies[j])) continue;
    TallyResponse response = alone_rows.at(row++, population.quantities[quantity].thresholds);
    const double with_own = response.covariance.front();
    response.covariance.assign(population.quantities.size(), 0.0);
    response.covariance[quantity] = with_own;
    out.tallies[j] = std::move(response);
  }
  return alone_rows.variance(0) / variance;
}

void shrink(std::vector<TallyResponse>& responses, const Population& population,
            const std::vector<QuantityCounts>* tallies, std::size_t quantity, double left) {
  for (std::size_t j = 0; j < responses.size(); ++j) {
    if (responses[j].covariance.empty()) continue;
    if (tallies != nullptr && population.quantities[(*tallies)[j].quantity].follows) continue;
    responses[j].covariance[quantity] *= left;
  }
}

}  // namespace

Response response_of(const Population& population, const Evidence& evidence) {
  const Settled known = settled(population, evidence);
  Response out{posterior_of(population, evidence, known),
               std::vector<TallyResponse>(evidence.tallies.size()),
               {}};
  const Rows rows(known, rows_of(population, evidence));
  std::size_t row = 0;
  for (std::size_t j = 0; j < evidence.tallies.size(); ++j) {
    const Quantity& quantity = population.quantities[evidence.tallies[j].quantity];
    if (!quantity.follows && has_counts(evidence.tallies[j]))
      out.tallies[j] = rows.at(row++, quantity.thresholds);
  }
  for (std::size_t m = 0; m < evidence.mixtures.size(); ++m)
    out.mixtures.push_back(rows.at(row++, {0.0}));
  for (std::size_t q = 0; q < population.quantities.size(); ++q) {
    if (!population.quantities[q].follows) continue;
    const double left = respond_alone(population, evidence, q, rows, out);
    shrink(out.tallies, population, &evidence.tallies, q, left);
    shrink(out.mixtures, population, nullptr, q, left);
  }
  return out;
}

Evidence weighed(Evidence evidence, double weight) {
  for (QuantityCounts& tally : evidence.tallies)
    for (double& count : tally.counts) count *= weight;
  for (MixtureCounts& mixture : evidence.mixtures) {
    mixture.made *= weight;
    mixture.of *= weight;
  }
  return evidence;
}

}  // namespace callfit

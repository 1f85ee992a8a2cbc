#include <callfit/population/posterior.hpp>

#include "population/latent.hpp"
#include "population/propagation.hpp"
#include "population/settled.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

namespace callfit {

Seen seen(const JointNormal& normal, const LinearForm& form) {
  Eigen::VectorXd hub = normal.hub_weights(form);
  Eigen::VectorXd with_hub = normal.hub_covariance * hub;
  return {&form, std::move(hub), std::move(with_hub)};
}

double covariance(const JointNormal& normal, const Seen& a, const Seen& b) {
  const double through_hub = a.hub.dot(b.with_hub);
  return a.form->trait == b.form->trait ? through_hub + normal.own_covariance(*a.form, *b.form)
                                        : through_hub;
}

namespace {

class Summary {
 public:
  Summary(const Latent& latent, const Propagated& propagated)
      : propagated_(propagated), normal_(propagated.normal), latent_(latent) {
    for (const EvidenceRow& row : latent.rows) rows_.push_back(seen(normal_, row.form));
    root_ = Eigen::LLT<Eigen::MatrixXd>(normal_.hub_covariance).matrixL();
  }

  Posterior posterior() {
    Posterior out;
    out.shared = static_cast<std::size_t>(latent_.hub);
    out.sweeps = propagated_.sweeps;
    std::vector<std::vector<std::size_t>> of_trait(latent_.blocks.size());
    for (std::size_t q = 0; q < latent_.quantities.size(); ++q) {
      const Seen quantity = seen(normal_, latent_.quantities[q]);
      out.marginals.push_back(marginal(quantity));
      out.scores.push_back({shared_weights(quantity, out.marginals.back().sd), {}});
      of_trait[quantity.form->trait].push_back(q);
    }
    turn_to_principal(out);
    for (const auto& quantities : of_trait) share_out(quantities, out);
    return out;
  }

 private:
  Marginal marginal(const Seen& quantity) const {
    const double variance = std::max(0.0, covariance(normal_, quantity, quantity));
    double third = 0;
    for (std::size_t j = 0; j < rows_.size(); ++j) {
      if (!(propagated_.row_variance[j] > 0)) continue;
      const double share = covariance(normal_, quantity, rows_[j]) / propagated_.row_variance[j];
      third += propagated_.third_cumulant[j] * share * share * share;
    }
    const double sd = std::sqrt(variance);
    return {normal_.own_mean(*quantity.form) + quantity.hub.dot(normal_.hub_mean), sd,
            sd > 0 ? third / (sd * variance) : 0.0};
  }

  std::vector<double> shared_weights(const Seen& quantity, double sd) const {
    std::vector<double> weights(static_cast<std::size_t>(latent_.hub), 0.0);
    if (!(sd > 0)) return weights;
    const Eigen::VectorXd scaled = root_.transpose() * quantity.hub / sd;
    std::copy(scaled.begin(), scaled.end(), weights.begin());
    return weights;
  }

  // The shared normals turned to the principal axes of the scores, what most of them share first:
  // the distribution is the same, and the first few normals are most of everything.
  static void turn_to_principal(Posterior& out) {
    const auto rows = static_cast<Eigen::Index>(out.scores.size());
    const auto columns = static_cast<Eigen::Index>(out.shared);
    if (columns == 0) return;
    Eigen::MatrixXd weights(rows, columns);
    for (Eigen::Index q = 0; q < rows; ++q)
      weights.row(q) = Eigen::Map<const Eigen::RowVectorXd>(
          out.scores[static_cast<std::size_t>(q)].shared.data(), columns);
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> axes(weights.transpose() * weights);
    weights = weights * axes.eigenvectors().rowwise().reverse();
    for (Eigen::Index q = 0; q < rows; ++q) {
      auto& shared = out.scores[static_cast<std::size_t>(q)].shared;
      Eigen::Map<Eigen::RowVectorXd>(shared.data(), columns) = weights.row(q);
    }
  }

  // Cholesky's factor of what the quantities of one trait share beside the hub, row by row; where
  // nothing of its own is left, a quantity gets no column.
  void share_out(const std::vector<std::size_t>& quantities, Posterior& out) const {
    constexpr double nothing = 1e-12;  // of the variance
    const auto n = static_cast<Eigen::Index>(quantities.size());
    Eigen::MatrixXd root = Eigen::MatrixXd::Zero(n, n);
    for (Eigen::Index i = 0; i < n; ++i) {
      const std::size_t q = quantities[static_cast<std::size_t>(i)];
      const LinearForm& form = latent_.quantities[q];
      const double sd = out.marginals[q].sd;
      if (!(sd > 0)) continue;
      for (Eigen::Index j = 0; j < i; ++j) {
        if (!(root(j, j) > 0)) continue;
        const LinearForm& before = latent_.quantities[quantities[static_cast<std::size_t>(j)]];
        const double common =
            normal_.own_covariance(form, before) - root.row(i).head(j).dot(root.row(j).head(j));
        root(i, j) = common / root(j, j);
      }
      const double rest = normal_.own_covariance(form, form) - root.row(i).head(i).squaredNorm();
      root(i, i) = rest > nothing * sd * sd ? std::sqrt(rest) : 0.0;
      auto& own = out.scores[q].own;
      for (Eigen::Index j = 0; j <= i; ++j) own.push_back(root(i, j) / sd);
    }
  }

  const Propagated& propagated_;
  const JointNormal& normal_;
  const Latent& latent_;
  std::vector<Seen> rows_;
  Eigen::MatrixXd root_;
};

}  // namespace

Population alone(const Population& population, std::size_t quantity, double spread) {
  Population out;
  const Quantity& what = population.quantities[quantity];
  const double slope = std::abs(what.slope);
  Trait trait = population.traits[what.trait];
  trait.spread = spread;
  trait.loadings.clear();
  trait.opponent_loading = 0;
  trait.opponent_spread *= slope;
  trait.game_spread *= slope;
  out.traits = {trait};
  out.quantities = {{what.id, 0, 1, 0, what.thresholds}};
  for (const OtherLevel& level : population.levels)
    out.levels.push_back(
        {level.id, {what.slope * level.shift[what.trait]}, {slope * level.spread[what.trait]}});
  return out;
}

Evidence alone(const Evidence& evidence, const Population& population, std::size_t quantity,
               double mean) {
  Evidence out;
  out.games = evidence.games;
  const Quantity& what = population.quantities[quantity];
  for (const TapeSource& source : evidence.sources)
    out.sources.push_back({{source.carries_over[what.trait]}, {}, {}});
  for (const Opponent& opponent : evidence.opponents) {
    Opponent seen;
    if (what.trait < opponent.effects.size() && opponent.effects[what.trait])
      seen.effects = {OpponentEffect{what.slope * opponent.effects[what.trait]->mean,
                                     std::abs(what.slope) * opponent.effects[what.trait]->spread}};
    out.opponents.push_back(seen);
  }
  for (const QuantityCounts& tally : evidence.tallies) {
    if (tally.quantity != quantity) continue;
    out.tallies.push_back(tally);
    out.tallies.back().quantity = 0;
    out.tallies.back().shift += mean;
  }
  return out;
}

namespace {

// What is counted of a quantity that follows moves it alone: others keep what they know, and it
// goes with them only as far as it is still open.
void follow(const Population& population, const Evidence& evidence, std::size_t quantity,
            Posterior& posterior) {
  Marginal& marginal = posterior.marginals[quantity];
  const Evidence own = alone(evidence, population, quantity, marginal.mean);
  if (own.tallies.empty() || !(marginal.sd > 0)) return;
  const Marginal moved =
      posterior_of(alone(population, quantity, marginal.sd), own).marginals.front();
  const double kept = moved.sd / marginal.sd;
  marginal = {marginal.mean + moved.mean, moved.sd, moved.skewness};
  Score& score = posterior.scores[quantity];
  for (double& weight : score.shared) weight *= kept;
  for (double& weight : score.own) weight *= kept;
  const double with_others =
      std::inner_product(score.shared.begin(), score.shared.end(), score.shared.begin(), 0.0) +
      std::inner_product(score.own.begin(), score.own.end() - 1, score.own.begin(), 0.0);
  score.own.back() = std::sqrt(std::max(0.0, 1 - with_others));
}

}  // namespace

namespace {

Tangents tangents_at(const Latent& latent, const JointNormal& normal) {
  Tangents at;
  for (const auto& parts : latent.mixtures) {
    auto& values = at.emplace_back();
    for (const LinearForm& form : parts)
      values.push_back(form.offset + normal.own_mean(form) +
                       normal.hub_weights(form).dot(normal.hub_mean));
  }
  return at;
}

double farthest(const Tangents& a, const Tangents& b) {
  double most = 0;
  for (std::size_t m = 0; m < a.size(); ++m)
    for (std::size_t i = 0; i < a[m].size(); ++i)
      most = std::max(most, std::abs(a[m][i] - b[m][i]));
  return most;
}

}  // namespace

Settled settled(const Population& population, const Evidence& evidence) {
  constexpr int most_rounds = 20;
  constexpr double at_rest = 1e-5;  // log-odds
  Settled now{latent_of(population, evidence), {}};
  now.propagated = propagate(now.latent);
  if (evidence.mixtures.empty()) return now;
  Tangents at = tangents_at(now.latent, now.propagated.normal);
  for (int round = 0; round < most_rounds; ++round) {
    now.latent = latent_of(population, evidence, at);
    now.propagated = propagate(now.latent);
    Tangents next = tangents_at(now.latent, now.propagated.normal);
    const double moved = farthest(at, next);
    at = std::move(next);
    if (moved < at_rest) return now;
  }
  throw Unsettled("what season totals say of him does not come to rest after " +
                  std::to_string(most_rounds) + " rounds");
}

namespace {

// What opponents to come do is normal and independent of all that is known of him. Behind the
// shared normals stand one for what their effects on traits have in common, and one a trait.
void add_coming(const Population& population, const std::vector<OpponentEffect>& coming,
                Posterior& posterior) {
  const std::size_t common = posterior.shared;
  posterior.shared += 1 + population.traits.size();
  for (std::size_t q = 0; q < posterior.marginals.size(); ++q) {
    const Quantity& what = population.quantities[q];
    const OpponentEffect& effect = coming[what.trait];
    Marginal& marginal = posterior.marginals[q];
    const double before = marginal.sd;
    const double more = what.slope * effect.spread;
    marginal.mean += what.slope * effect.mean;
    marginal.sd = std::hypot(before, more);
    Score& score = posterior.scores[q];
    score.shared.resize(posterior.shared, 0.0);
    if (!(marginal.sd > 0)) continue;
    const double kept = before / marginal.sd;
    marginal.skewness *= kept * kept * kept;
    for (double& weight : score.shared) weight *= kept;
    for (double& weight : score.own) weight *= kept;
    const double loading = population.traits[what.trait].opponent_loading;
    score.shared[common] = more / marginal.sd * loading;
    score.shared[common + 1 + what.trait] =
        more / marginal.sd * std::sqrt(std::max(0.0, 1 - loading * loading));
  }
}

}  // namespace

double score_correlation(const Population& population, const Posterior& posterior, std::size_t a,
                         std::size_t b) {
  if (a == b) return 1;
  const auto product = [](const std::vector<double>& x, const std::vector<double>& y) {
    const auto both = static_cast<std::ptrdiff_t>(std::min(x.size(), y.size()));
    return std::inner_product(x.begin(), x.begin() + both, y.begin(), 0.0);
  };
  const Score& x = posterior.scores[a];
  const Score& y = posterior.scores[b];
  const bool one_trait = population.quantities[a].trait == population.quantities[b].trait;
  return product(x.shared, y.shared) + (one_trait ? product(x.own, y.own) : 0.0);
}

Posterior posterior_of(const Population& population, const Evidence& evidence) {
  return posterior_of(population, evidence, settled(population, evidence));
}

Posterior posterior_of(const Population& population, const Evidence& evidence,
                       const Settled& known) {
  Posterior posterior = Summary(known.latent, known.propagated).posterior();
  for (std::size_t q = 0; q < population.quantities.size(); ++q)
    if (population.quantities[q].follows) follow(population, evidence, q, posterior);
  if (!evidence.coming.empty()) add_coming(population, evidence.coming, posterior);
  return posterior;
}

}  // namespace callfit

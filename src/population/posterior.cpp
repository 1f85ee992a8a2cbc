#include <callfit/population/posterior.hpp>

#include "population/latent.hpp"
#include "population/propagation.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

/// A form as it hangs on the hub.
struct Seen {
  const LinearForm* form;
  Eigen::VectorXd hub;       ///< weights of the hub
  Eigen::VectorXd with_hub;  ///< its covariance with the hub
};

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
    return {normal_.mean(*quantity.form), sd, sd > 0 ? third / (sd * variance) : 0.0};
  }

  std::vector<double> shared_weights(const Seen& quantity, double sd) const {
    std::vector<double> weights(static_cast<std::size_t>(latent_.hub), 0.0);
    if (!(sd > 0)) return weights;
    const Eigen::VectorXd scaled = root_.transpose() * quantity.hub / sd;
    std::copy(scaled.begin(), scaled.end(), weights.begin());
    return weights;
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

Posterior posterior_of(const Population& population, const Evidence& evidence) {
  const Latent latent = latent_of(population, evidence);
  const Propagated propagated = propagate(latent);
  return Summary(latent, propagated).posterior();
}

}  // namespace callfit

#include "population/propagation.hpp"

#include <callfit/population/posterior.hpp>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

namespace callfit {
namespace {

constexpr int most_sweeps = 200;
constexpr double at_rest = 1e-7;  // of a row's standard deviation
constexpr Eigen::Index node_count = 15;

/// Gauss-Hermite points and weights for the standard normal (Golub & Welsch 1969).
struct NormalNodes {
  Eigen::ArrayXd at, weight;
};

NormalNodes normal_nodes() {
  Eigen::VectorXd beside(node_count - 1);
  for (Eigen::Index k = 0; k + 1 < node_count; ++k)
    beside(k) = std::sqrt(static_cast<double>(k + 1));
  Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver;
  solver.computeFromTridiagonal(Eigen::VectorXd::Zero(node_count), beside);
  return {solver.eigenvalues().array(), solver.eigenvectors().row(0).array().square()};
}

/// exp(pull x - grip x^2 / 2) in the place of a row's likelihood, x its form without the offset.
struct Site {
  double pull = 0, grip = 0;
};

class Propagation {
 public:
  explicit Propagation(const Latent& latent) : latent_(latent), sites_(latent.rows.size()) {}

  Propagated run() {
    if (!latent_.rows.empty()) {
      start();
      settle();
    } else {
      join();
    }
    return {std::move(normal_), std::move(variance_), std::move(third_), sweeps_};
  }

 private:
  // Newton's method for the mode, from where the counts alone would put each row.
  void start() {
    constexpr int rounds = 4;
    for (std::size_t j = 0; j < sites_.size(); ++j)
      bend(j, latent_.rows[j].likelihood.first_guess() - offset(j));
    for (int round = 0; round < rounds; ++round) {
      join();
      for (std::size_t j = 0; j < sites_.size(); ++j) bend(j, mean_[j]);
    }
    join();
  }

  void settle() {
    double before = std::numeric_limits<double>::infinity();
    double step = 1;
    for (sweeps_ = 1; sweeps_ <= most_sweeps; ++sweeps_) {
      const double moved = sweep(step);
      join();
      if (moved < at_rest) return;
      if (!std::isfinite(moved)) break;
      if (moved > before) step = std::max(0.1, step / 2);
      before = moved;
    }
    throw Unsettled("what the counts say of him does not come to rest after " +
                    std::to_string(most_sweeps) + " rounds");
  }

  double offset(std::size_t j) const { return latent_.rows[j].form.offset; }

  // The normal with the likelihood's slope and curvature at x.
  void bend(std::size_t j, double x) {
    const auto [slope, curvature] = latent_.rows[j].likelihood.slopes_at(x + offset(j));
    sites_[j] = {slope + curvature * x, curvature};
  }

  // The normal that all sites together make, trait by trait given the hub (Schur complements).
  void join() {
    const std::size_t traits = latent_.blocks.size();
    const Eigen::Index hub = latent_.hub;
    Eigen::MatrixXd hub_precision = Eigen::MatrixXd::Identity(hub, hub);
    Eigen::VectorXd hub_pull = Eigen::VectorXd::Zero(hub);
    std::vector<Eigen::MatrixXd> precision(traits), cross(traits);
    std::vector<Eigen::VectorXd> pull(traits);
    for (std::size_t t = 0; t < traits; ++t) {
      precision[t].setIdentity(latent_.blocks[t], latent_.blocks[t]);
      cross[t].setZero(latent_.blocks[t], hub);
      pull[t].setZero(latent_.blocks[t]);
    }
    for (std::size_t j = 0; j < sites_.size(); ++j) {
      const LinearForm& form = latent_.rows[j].form;
      const Site& site = sites_[j];
      hub_precision.noalias() += site.grip * form.hub * form.hub.transpose();
      hub_pull += site.pull * form.hub;
      for (const auto& a : form.own) {
        for (const auto& b : form.own)
          precision[form.trait](a.place, b.place) += site.grip * a.weight * b.weight;
        cross[form.trait].row(a.place) += site.grip * a.weight * form.hub.transpose();
        pull[form.trait](a.place) += site.pull * a.weight;
      }
    }
    normal_.blocks.resize(traits);
    for (std::size_t t = 0; t < traits; ++t) {
      Block& block = normal_.blocks[t];
      const Eigen::LLT<Eigen::MatrixXd> factor(precision[t]);
      block.covariance =
          factor.solve(Eigen::MatrixXd::Identity(latent_.blocks[t], latent_.blocks[t]));
      block.alone.noalias() = block.covariance * pull[t];
      block.on_hub.noalias() = block.covariance * cross[t];
      hub_precision.noalias() -= cross[t].transpose() * block.on_hub;
      hub_pull.noalias() -= cross[t].transpose() * block.alone;
    }
    const Eigen::LLT<Eigen::MatrixXd> factor(hub_precision);
    normal_.hub_covariance = factor.solve(Eigen::MatrixXd::Identity(hub, hub));
    normal_.hub_mean = normal_.hub_covariance * hub_pull;
    read_rows();
  }

  void read_rows() {
    mean_.resize(sites_.size());
    variance_.resize(sites_.size());
    for (std::size_t j = 0; j < sites_.size(); ++j) {
      const LinearForm& form = latent_.rows[j].form;
      const Eigen::VectorXd on_hub = normal_.hub_weights(form);
      mean_[j] = normal_.own_mean(form) + on_hub.dot(normal_.hub_mean);
      variance_[j] =
          normal_.own_covariance(form, form) + on_hub.dot(normal_.hub_covariance * on_hub);
    }
  }

  /// Gives every row the moments that its exact likelihood makes of the other rows' normal; returns
  /// how far the farthest moves, infinity where one cannot be told.
  double sweep(double step) {
    constexpr double lost = std::numeric_limits<double>::infinity();
    third_.resize(sites_.size());
    double farthest = 0;
    for (std::size_t j = 0; j < sites_.size(); ++j) {
      const double sd = std::sqrt(variance_[j]);
      if (!std::isfinite(mean_[j])) return lost;
      if (sd == 0) continue;
      const auto [mean, variance, third] = exact_moments(j, sd);
      if (!std::isfinite(mean) || !(variance > 0)) return lost;
      third_[j] = third;
      farthest = std::max(
          {farthest, std::abs(mean - mean_[j]) / sd, std::abs(variance / variance_[j] - 1)});
      const double grip = sites_[j].grip + 1 / variance - 1 / variance_[j];
      const double pull = sites_[j].pull + mean / variance - mean_[j] / variance_[j];
      sites_[j].grip += step * (std::max(0.0, grip) - sites_[j].grip);
      sites_[j].pull += step * (pull - sites_[j].pull);
    }
    return farthest;
  }

  struct Moments {
    double mean, variance, third;
  };

  // Importance weights against the present normal, which at rest has the same first two moments:
  // likelihood over site.
  Moments exact_moments(std::size_t j, double sd) {
    static const NormalNodes nodes = normal_nodes();
    x_ = mean_[j] + sd * nodes.at;
    latent_.rows[j].likelihood.log_at(x_ + offset(j), weight_);
    weight_ -= sites_[j].pull * x_ - 0.5 * sites_[j].grip * x_.square();
    weight_ = nodes.weight * (weight_ - weight_.maxCoeff()).exp();
    weight_ /= weight_.sum();
    const double mean = (weight_ * x_).sum();
    const double variance = (weight_ * (x_ - mean).square()).sum();
    return {mean, variance, (weight_ * (x_ - mean).cube()).sum()};
  }

  const Latent& latent_;
  std::vector<Site> sites_;
  JointNormal normal_;
  std::vector<double> mean_, variance_, third_;
  Eigen::ArrayXd x_, weight_;
  int sweeps_ = 0;
};

}  // namespace

Eigen::VectorXd JointNormal::hub_weights(const LinearForm& form) const {
  Eigen::VectorXd weights = form.hub;
  for (const auto& part : form.own)
    weights -= part.weight * blocks[form.trait].on_hub.row(part.place).transpose();
  return weights;
}

double JointNormal::own_mean(const LinearForm& form) const {
  double value = 0;
  for (const auto& part : form.own) value += part.weight * blocks[form.trait].alone(part.place);
  return value;
}

double JointNormal::own_covariance(const LinearForm& a, const LinearForm& b) const {
  double sum = 0;
  for (const auto& i : a.own)
    for (const auto& j : b.own)
      sum += i.weight * j.weight * blocks[a.trait].covariance(i.place, j.place);
  return sum;
}

Propagated propagate(const Latent& latent) { return Propagation(latent).run(); }

}  // namespace callfit

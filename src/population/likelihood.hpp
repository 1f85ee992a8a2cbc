// The likelihood of counts in ordered categories as a function of one shift.
#pragma once

#include <Eigen/Core>

#include <cstddef>
#include <vector>

namespace callfit {

/// log prod_c P_c(shift)^count_c, where the chance of category c and above is
/// logistic(threshold_c + shift) (McCullagh 1980). Concave in the shift.
class CategoryLikelihood {
 public:
  /// `thresholds` fall; one count more than thresholds.
  CategoryLikelihood(std::vector<double> thresholds, std::vector<double> counts)
      : thresholds_(std::move(thresholds)), counts_(std::move(counts)) {}

  /// The logarithm at every shift.
  void log_at(const Eigen::Ref<const Eigen::ArrayXd>& shifts, Eigen::ArrayXd& out) const;

  /// First derivative, and second derivative with its sign turned, > 0 where anything was counted.
  struct Slopes {
    double slope = 0;
    double curvature = 0;
  };
  Slopes slopes_at(double shift) const;

  /// A shift to start a search from: where half a trial of each end category more would put it,
  /// for two categories; else 0.
  double first_guess() const;

 private:
  std::vector<double> thresholds_;
  std::vector<double> counts_;
};

}  // namespace callfit

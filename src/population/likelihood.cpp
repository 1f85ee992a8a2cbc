#include "population/likelihood.hpp"

#include <callfit/stats/logit.hpp>

#include <cmath>

namespace callfit {
// Category c lies between the thresholds a = t_c and b = t_(c+1), a > b. With F the logistic
// function, log(F(a) - F(b)) = -log(1 + e^-a) - log(1 + e^b) + log(1 - e^(b - a)); the last term
// does not depend on the shift and is left out. The end categories lack one of the two terms.
void CategoryLikelihood::log_at(const Eigen::Ref<const Eigen::ArrayXd>& shifts,
                                Eigen::ArrayXd& out) const {
  out.setZero(shifts.size());
  for (std::size_t t = 0; t < thresholds_.size(); ++t) {
    const double above = counts_[t + 1];
    const double both = counts_[t] + above;
    if (both == 0) continue;
    // log(1 + e^x) without overflow.
    const auto x = thresholds_[t] + shifts;
    out += above * x - both * (x.max(0.0) + (1 + (-x.abs()).exp()).log());
  }
}

CategoryLikelihood::Slopes CategoryLikelihood::slopes_at(double shift) const {
  Slopes slopes;
  for (std::size_t t = 0; t < thresholds_.size(); ++t) {
    const double above = counts_[t + 1];
    const double both = counts_[t] + above;
    const double p = logistic(thresholds_[t] + shift);
    slopes.slope += above - both * p;
    slopes.curvature += both * p * (1 - p);
  }
  return slopes;
}

double CategoryLikelihood::first_guess() const {
  if (thresholds_.size() != 1) return 0;
  return std::log((counts_[1] + 0.5) / (counts_[0] + 0.5)) - thresholds_[0];
}

}  // namespace callfit

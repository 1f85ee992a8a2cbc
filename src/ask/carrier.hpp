// Values worked out exactly for some of the draws, carried to all of them.
#pragma once

#include <ask/worth.hpp>
#include <callfit/ask/number.hpp>

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include <cstddef>
#include <vector>

namespace callfit::ask {

/// Least squares on (1, points, net points, what is told beside them) of the draws worked out,
/// which lie evenly in the order of net points; each draw gets the line's value and the departure
/// of one of them (stretched for the fitted numbers), so that the interval holds what these do not
/// tell.
class Carrier {
 public:
  /// `count` above 3 and `beside`'s columns together, at most the number of draws; `beside`: a
  /// value a draw each.
  Carrier(const Worth& worth, std::size_t count,
          const std::vector<std::vector<double>>& beside = {});

  /// The draws to work out, in the order in which carried() wants their values.
  const std::vector<std::size_t>& chosen() const { return chosen_; }
  Number carried(const std::vector<double>& values) const;

 private:
  void take(Eigen::Index place, const std::vector<double>& column);

  std::vector<std::size_t> chosen_;
  Eigen::MatrixXd told_;         // [draw][regressor]: over those chosen mean 0, variance 1 if any
  Eigen::MatrixXd told_chosen_;  // their rows
  Eigen::LDLT<Eigen::MatrixXd> normal_equations_;
};

}  // namespace callfit::ask

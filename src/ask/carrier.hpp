// Values worked out exactly for some of the draws, carried to all of them.
#pragma once

#include <ask/worth.hpp>
#include <callfit/ask/number.hpp>

#include <array>
#include <cstddef>
#include <vector>

namespace callfit::ask {

/// Least squares on (1, points, net points) of the draws worked out, which lie evenly in the order
/// of net points; each draw gets the line's value and the departure of one of them (stretched for
/// the three fitted numbers), so that the interval holds what the two points do not tell.
class Carrier {
 public:
  /// `count` above 4 and at most the number of draws. The worth must outlive the carrier.
  Carrier(const Worth& worth, std::size_t count);

  /// The draws to work out, in the order in which carried() wants their values.
  const std::vector<std::size_t>& chosen() const { return chosen_; }
  Number carried(const std::vector<double>& values) const;

 private:
  std::array<double, 2> centred(std::size_t draw) const;

  const Worth& worth_;
  std::vector<std::size_t> chosen_;
  std::array<double, 2> middle_{};
  double pp_ = 0, pn_ = 0, nn_ = 0;
};

}  // namespace callfit::ask

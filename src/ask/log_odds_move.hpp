// Several shares moved together until one average of them is as wanted.
#pragma once

#include <callfit/base/finding.hpp>

#include <boost/math/tools/toms748_solve.hpp>

#include <cstdint>
#include <string>

namespace callfit::ask {

/// Finds the common log-odds move at which `at(move)` equals `wanted`, and leaves things as at()
/// left them there. Throws InputError when no move within +-20 does.
template <class At>
void move_to(const At& at, double wanted, const std::string& path) {
  constexpr double largest = 20;
  const auto off = [&](double shift) { return at(shift) - wanted; };
  const double low = off(-largest);
  const double high = off(largest);
  if (low > 0 || high < 0)
    throw InputError(Finding{{"", 0, path},
                             "cannot be moved so far",
                             "shares of exactly 0 and 1 stay where they are; set them one by one"});
  std::uintmax_t steps = 200;
  const auto [below, above] = boost::math::tools::toms748_solve(
      off, -largest, largest, low, high, boost::math::tools::eps_tolerance<double>(50), steps);
  at((below + above) / 2);
}

}  // namespace callfit::ask

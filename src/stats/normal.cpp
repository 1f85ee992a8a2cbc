#include <callfit/stats/normal.hpp>

#include <boost/math/special_functions/erf.hpp>

#include <cmath>

namespace callfit {
namespace {

// Without long double, which not every machine has: the same digits everywhere, and faster.
using Double = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

}  // namespace

double normal_quantile(double p) {
  return -std::sqrt(2.0) * boost::math::erfc_inv(2 * p, Double());
}

}  // namespace callfit

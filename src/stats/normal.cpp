#include <callfit/stats/normal.hpp>

#include <boost/math/special_functions/erf.hpp>

#include <cfloat>
#include <cmath>

namespace callfit {
namespace {

using Precision =
    boost::math::policies::policy<boost::math::policies::promote_double<LDBL_MANT_DIG == 64>>;

}  // namespace

double normal_quantile(double p) {
  return -std::sqrt(2.0) * boost::math::erfc_inv(2 * p, Precision());
}

}  // namespace callfit

#include <base/vector_loops.hpp>

namespace callfit {

CALLFIT_WIDE_VECTORS
void add_scaled(double* out, const double* p, std::size_t count, double by) {
  CALLFIT_INDEPENDENT_TURNS
  for (std::size_t i = 0; i < count; ++i) out[i] += by * p[i];
}

}  // namespace callfit

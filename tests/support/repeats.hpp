// How often a test repeats. Under sanitizers, which look for other faults than statistics do and
// cost several times as much, a tenth is enough.
#pragma once

#include <algorithm>
#include <cstddef>

namespace callfit::testing {

constexpr std::size_t repeats(std::size_t full) {
#ifdef CALLFIT_FEW_REPEATS
  return std::max<std::size_t>(full / 10, 1);
#else
  return full;
#endif
}

}  // namespace callfit::testing

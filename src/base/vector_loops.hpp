// Help for compilers with loops over many like things. The same numbers come out with or without
// it: -ffp-contract=off rules out fused operations, and no sum changes its order.
#pragma once

#include <cstddef>

/// A function that is compiled twice, once for processors with vectors of 256 bits; which one runs
/// is chosen when the program starts. Not under sanitizers that are not ready so early.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define CALLFIT_WIDE_VECTORS __attribute__((target_clones("default", "avx2")))
#else
#define CALLFIT_WIDE_VECTORS
#endif

/// A function that is compiled, with all that it calls, for processors with vectors of 256 bits,
/// where the compiler can do that. It may be called only where wide_vectors_run(), and is worth
/// calling only where wide_vectors_pay().
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
#define CALLFIT_WIDE_THROUGHOUT [[gnu::target("avx2"), gnu::flatten]]
namespace callfit {
inline bool wide_vectors_run() { return __builtin_cpu_supports("avx2") != 0; }
inline bool wide_vectors_pay() { return wide_vectors_run(); }
}  // namespace callfit
#else
#define CALLFIT_WIDE_THROUGHOUT
namespace callfit {
constexpr bool wide_vectors_run() { return true; }
constexpr bool wide_vectors_pay() { return false; }
}  // namespace callfit
#endif

/// Before a loop whose turns do not depend on each other.
#if defined(__clang__)
#define CALLFIT_INDEPENDENT_TURNS _Pragma("clang loop vectorize(assume_safety)")
#elif defined(__GNUC__)
#define CALLFIT_INDEPENDENT_TURNS _Pragma("GCC ivdep")
#else
#define CALLFIT_INDEPENDENT_TURNS
#endif

namespace callfit {

/// out[i] += by * p[i]; the two are apart.
void add_scaled(double* out, const double* p, std::size_t count, double by);

}  // namespace callfit

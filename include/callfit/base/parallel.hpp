// Independent units of work over threads. Callers write results by unit index or merge integer
// tallies, so the outcome never depends on the number of threads.
#pragma once

#include <cstddef>
#include <functional>

namespace callfit {

/// Called from one thread at a time with (done, total).
using Progress = std::function<void(std::size_t done, std::size_t total)>;

/// Runs `work(unit)` for unit in [0, units) on `threads` threads (0: one per core), or in one loop
/// where the library is built without CALLFIT_THREADS. The first exception thrown by a unit is
/// rethrown here once all threads have stopped.
void for_each_unit(std::size_t units, unsigned threads,
                   const std::function<void(std::size_t)>& work, const Progress& progress = {});

}  // namespace callfit

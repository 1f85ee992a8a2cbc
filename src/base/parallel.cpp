#include <callfit/base/parallel.hpp>

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace callfit {

void for_each_unit(std::size_t units, unsigned threads,
                   const std::function<void(std::size_t)>& work, const Progress& progress) {
  if (threads == 0) threads = std::max(1U, std::thread::hardware_concurrency());
  std::atomic<std::size_t> next{0};
  std::size_t done = 0;
  std::mutex mutex;
  std::exception_ptr failure;

  const auto run = [&] {
    for (std::size_t unit = next++; unit < units; unit = next++) {
      try {
        work(unit);
      } catch (...) {
        const std::lock_guard lock(mutex);
        if (!failure) failure = std::current_exception();
        next = units;
        return;
      }
      if (!progress) continue;
      const std::lock_guard lock(mutex);
      progress(++done, units);
    }
  };

  const std::size_t extra = std::min<std::size_t>(threads, std::max<std::size_t>(units, 1)) - 1;
  {
    std::vector<std::jthread> pool;
    pool.reserve(extra);
    for (std::size_t i = 0; i < extra; ++i) pool.emplace_back(run);
    run();
  }
  if (failure) std::rethrow_exception(failure);
}

}  // namespace callfit

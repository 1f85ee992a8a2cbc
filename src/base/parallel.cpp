#include <callfit/base/parallel.hpp>

#ifdef CALLFIT_THREADS
#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>
#endif

namespace callfit {

#ifdef CALLFIT_THREADS

namespace {

// Not std::jthread, which not every standard library has.
class Pool {
 public:
  Pool(std::size_t size, const std::function<void()>& run) {
    threads_.reserve(size);
    try {
      for (std::size_t i = 0; i < size; ++i) threads_.emplace_back(run);
    } catch (...) {
      join();
      throw;
    }
  }
  Pool(const Pool&) = delete;
  Pool& operator=(const Pool&) = delete;
  ~Pool() { join(); }

 private:
  void join() {
    for (std::thread& thread : threads_) thread.join();
  }

  std::vector<std::thread> threads_;
};

}  // namespace

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
    const Pool pool(extra, run);
    run();
  }
  if (failure) std::rethrow_exception(failure);
}

#else

void for_each_unit(std::size_t units, unsigned, const std::function<void(std::size_t)>& work,
                   const Progress& progress) {
  for (std::size_t unit = 0; unit < units; ++unit) {
    work(unit);
    if (progress) progress(unit + 1, units);
  }
}

#endif

}  // namespace callfit

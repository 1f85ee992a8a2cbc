#include <callfit/base/parallel.hpp>

#include <catch2/catch.hpp>

#include <atomic>
#include <stdexcept>
#include <vector>

using namespace callfit;

TEST_CASE("every unit runs once, whatever the thread count") {
  for (unsigned threads : {1U, 2U, 7U}) {
    std::vector<int> runs(1000, 0);
    std::size_t last = 0;
    for_each_unit(
        runs.size(), threads, [&](std::size_t unit) { ++runs[unit]; },
        [&](std::size_t done, std::size_t total) {
          last = done;
          CHECK(total == 1000);
        });
    CHECK(runs == std::vector<int>(1000, 1));
    CHECK(last == 1000);
  }
}

TEST_CASE("an exception in a unit reaches the caller") {
  const auto bad_unit = [](std::size_t unit) {
    if (unit == 41) throw std::runtime_error("unit 41");
  };
  CHECK_THROWS_WITH(for_each_unit(100, 3, bad_unit), "unit 41");
}

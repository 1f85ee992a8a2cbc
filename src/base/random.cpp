#include <base/philox.hpp>
#include <callfit/base/random.hpp>

namespace callfit {

std::array<std::uint64_t, 4> philox_block(const std::array<std::uint64_t, 4>& counter,
                                          const std::array<std::uint64_t, 2>& key) {
  return philox(counter, key);
}

Stream::Stream(std::uint64_t seed, Purpose purpose, std::uint64_t unit, std::uint64_t part)
    : key_{seed, static_cast<std::uint64_t>(purpose)}, unit_(unit), part_(part) {}

void Stream::refill() {
  block_ = philox_block({unit_, block_index_++, part_, 0}, key_);
  used_ = 0;
}

}  // namespace callfit

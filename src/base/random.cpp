#include <callfit/base/random.hpp>

#include <Random123/philox.h>

namespace callfit {

std::array<std::uint64_t, 4> philox_block(const std::array<std::uint64_t, 4>& counter,
                                          const std::array<std::uint64_t, 2>& key) {
  const philox4x64_ctr_t in{{counter[0], counter[1], counter[2], counter[3]}};
  const philox4x64_key_t words{{key[0], key[1]}};
  const philox4x64_ctr_t out = philox4x64_R(10, in, words);
  return {out.v[0], out.v[1], out.v[2], out.v[3]};
}

std::uint64_t seed_for(std::uint64_t seed, std::string_view name) {
  constexpr std::uint64_t offset_basis = 0xcbf29ce484222325;
  constexpr std::uint64_t prime = 0x100000001b3;
  std::uint64_t hash = offset_basis;
  for (const char letter : name) hash = (hash ^ static_cast<unsigned char>(letter)) * prime;
  return seed ^ hash;
}

Stream::Stream(std::uint64_t seed, Purpose purpose, std::uint64_t unit)
    : key_{seed, static_cast<std::uint64_t>(purpose)}, unit_(unit) {}

void Stream::refill() {
  block_ = philox_block({unit_, block_index_++, 0, 0}, key_);
  used_ = 0;
}

}  // namespace callfit

// The generator itself, in line for the loops that need it so.
#pragma once

#include <Random123/philox.h>

#include <array>
#include <cstdint>

namespace callfit {

/// One block of Philox4x64-10.
inline std::array<std::uint64_t, 4> philox(const std::array<std::uint64_t, 4>& counter,
                                           const std::array<std::uint64_t, 2>& key) {
  const philox4x64_ctr_t in{{counter[0], counter[1], counter[2], counter[3]}};
  const philox4x64_key_t words{{key[0], key[1]}};
  const philox4x64_ctr_t out = philox4x64_R(10, in, words);
  return {out.v[0], out.v[1], out.v[2], out.v[3]};
}

}  // namespace callfit

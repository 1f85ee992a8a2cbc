// The generator itself, in line for the loops that need it so.
#pragma once

// Random123 refuses processors that its authors have not tried. WebAssembly has all that Philox
// needs (products of 64-bit words, in 128 bits), so it passes as one of them while the header is
// read.
#ifdef __wasm__
#define R123_USE_GNU_UINT128 1
#define R123_USE_ASM_GNU 0
#define __riscv
#endif
#include <Random123/philox.h>
#ifdef __wasm__
#undef __riscv
#endif

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

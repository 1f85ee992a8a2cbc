// Telling by one number whether values are the same.
#pragma once

#include <cstdint>
#include <cstring>
#include <string_view>

namespace callfit {

/// FNV-1a of 64 bits (Fowler, Noll and Vo) over the bytes of what is added, low bytes first.
class Digest {
 public:
  void add(std::uint64_t word) {
    for (int byte = 0; byte < 8; ++byte) add_byte((word >> (8 * byte)) & 0xff);
  }
  /// To the last bit; 0 and -0 are the same.
  void add(double value) {
    value += 0.0;
    std::uint64_t word = 0;
    static_assert(sizeof word == sizeof value);
    std::memcpy(&word, &value, sizeof word);  // not every library has std::bit_cast
    add(word);
  }
  void add(std::string_view text) {
    add(static_cast<std::uint64_t>(text.size()));
    for (const char c : text) add_byte(static_cast<unsigned char>(c));
  }
  std::uint64_t value() const { return value_; }

 private:
  void add_byte(std::uint64_t byte) {
    value_ ^= byte;
    value_ *= 1099511628211U;
  }

  std::uint64_t value_ = 14695981039346656037U;
};

}  // namespace callfit

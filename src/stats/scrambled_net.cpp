#include <stats/scrambled_net.hpp>

#include <boost/random/sobol.hpp>

#include <algorithm>
#include <bit>

namespace callfit {
namespace {

constexpr int digits = ScrambledNet::digits;
constexpr std::size_t word_bits = 64;

// Whether a digit is turned over, by the digits before it: place 1 of the first one, places 2k and
// 2k + 1 below place k.
using Turns = std::array<std::uint64_t, ScrambledNet::size / word_bits>;

std::uint64_t scrambled(std::uint64_t point, const Turns& turns) {
  std::uint64_t out = 0;
  std::uint64_t place = 1;
  for (int d = digits - 1; d >= 0; --d) {
    const std::uint64_t digit = point >> d & 1;
    const std::uint64_t turn =
        turns[static_cast<std::size_t>(place / word_bits)] >> (place % word_bits) & 1;
    out = out << 1 | (digit ^ turn);
    place = place << 1 | digit;
  }
  return out;
}

// In (0, 1), to 52 bits: the leading ones as given, those behind them from a random word.
double between(std::uint64_t leading, std::uint64_t word) {
  constexpr int bits = 52;
  const std::uint64_t cell = leading << (bits - digits) | word >> (word_bits - bits + digits);
  return (static_cast<double>(cell) + 0.5) * 0x1.0p-52;
}

}  // namespace

// Point n is the sum of the directions that stand in n's Gray code, so point 2^(k + 1) - 1 is
// direction k.
ScrambledNet::ScrambledNet(std::size_t dimensions) : directions_(dimensions) {
  if (dimensions == 0) return;
  boost::random::sobol sequence(dimensions);  // from point 1 on
  for (std::size_t k = 0; k < digits; ++k) {
    for (Directions& directions : directions_) directions[k] = sequence() >> (word_bits - digits);
    sequence.discard(((std::size_t{1} << (k + 1)) - 1) * dimensions);
  }
}

void ScrambledNet::fill(std::span<double> column, std::size_t dimension, Stream stream) const {
  const Directions& directions = directions_.at(dimension);
  for (std::size_t first = 0; first < column.size(); first += size) {
    Turns turns{};
    for (std::uint64_t& word : turns) word = stream();
    const std::size_t last = std::min(first + size, column.size());
    std::uint64_t point = 0;
    for (std::size_t i = first; i < last; ++i) {
      if (i > first) point ^= directions[static_cast<std::size_t>(std::countr_zero(i - first))];
      column[i] = between(scrambled(point, turns), stream());
    }
  }
}

}  // namespace callfit

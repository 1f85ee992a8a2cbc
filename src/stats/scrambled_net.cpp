#include <stats/scrambled_net.hpp>

#include <boost/random/sobol.hpp>

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>

namespace callfit {
namespace {

constexpr int digits = ScrambledNet::digits;
constexpr std::size_t word_bits = 64;

// Whether a digit is turned over, by the digits before it: place 1 of the first one, places 2k and
// 2k + 1 below place k.
using Turns = std::array<std::uint64_t, ScrambledNet::size / word_bits>;

// Where scrambling takes the digits so far, by their place: those of all points at size + point.
using Images = std::array<std::uint16_t, 2 * ScrambledNet::size>;

Images images_under(const Turns& turns) {
  Images image{};
  for (std::size_t place = 1; place < ScrambledNet::size; ++place) {
    const auto turn = static_cast<unsigned>(turns[place / word_bits] >> (place % word_bits) & 1);
    const unsigned so_far = unsigned{image[place]} << 1U;
    image[2 * place] = static_cast<std::uint16_t>(so_far | turn);
    image[2 * place + 1] = static_cast<std::uint16_t>(so_far | (turn ^ 1U));
  }
  return image;
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
    const Images image = images_under(turns);
    const std::size_t last = std::min(first + size, column.size());
    std::uint64_t point = 0;
    for (std::size_t i = first; i < last; ++i) {
      if (i > first) point ^= directions[static_cast<std::size_t>(std::countr_zero(i - first))];
      column[i] = between(image[size + static_cast<std::size_t>(point)], stream());
    }
  }
}

}  // namespace callfit

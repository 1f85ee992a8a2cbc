// An honest reel: a sample of filmed snaps in which every kind is as frequent as among all of them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace callfit {

/// A snap on film, for the choice of a reel.
struct FilmedSnap {
  std::size_t kind = 0;  ///< what it is a case of, such as its result: 0, 1, ...
  double seconds = 0;    ///< how long its film is, above 0
};

/// Seats of `total` shared out in proportion to `counts`, by largest remainder (the rest of equal
/// ones goes to the larger count, then to the first): sums to min(total, sum of counts), none above
/// its count.
std::vector<std::size_t> largest_remainder(std::span<const std::size_t> counts, std::size_t total);

/// Places of the chosen snaps, in the order of `snaps`: with one snap more it would last longer
/// than `seconds`. How many of each kind, largest_remainder() says; which ones, chance alone, under
/// `seed`, blind to how long they are and to how they look.
std::vector<std::size_t> honest_reel(std::span<const FilmedSnap> snaps, double seconds,
                                     std::uint64_t seed);

}  // namespace callfit

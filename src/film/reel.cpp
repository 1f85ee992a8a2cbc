#include <callfit/base/random.hpp>
#include <callfit/film/reel.hpp>

#include <algorithm>
#include <numeric>
#include <tuple>

namespace callfit {
namespace {

using Places = std::vector<std::size_t>;

// Durstenfeld's shuffle (Communications of the ACM 7(7), 1964, algorithm 235).
void shuffle(Places& places, Stream& stream) {
  for (std::size_t left = places.size(); left > 1; --left)
    std::swap(places[left - 1],
              places[static_cast<std::size_t>(stream.uniform() * static_cast<double>(left))]);
}

std::vector<Places> shuffled_by_kind(std::span<const FilmedSnap> snaps, std::uint64_t seed) {
  std::vector<Places> kinds;
  for (std::size_t i = 0; i < snaps.size(); ++i) {
    kinds.resize(std::max(kinds.size(), snaps[i].kind + 1));
    kinds[snaps[i].kind].push_back(i);
  }
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    Stream stream(seed, Purpose::reel, k);
    shuffle(kinds[k], stream);
  }
  return kinds;
}

Places taken(const std::vector<Places>& kinds, std::span<const std::size_t> counts) {
  Places chosen;
  for (std::size_t k = 0; k < kinds.size(); ++k)
    chosen.insert(chosen.end(), kinds[k].begin(),
                  kinds[k].begin() + static_cast<std::ptrdiff_t>(counts[k]));
  std::sort(chosen.begin(), chosen.end());
  return chosen;
}

double length_of(std::span<const FilmedSnap> snaps, const Places& chosen) {
  double sum = 0;
  for (const std::size_t i : chosen) sum += snaps[i].seconds;
  return sum;
}

}  // namespace

std::vector<std::size_t> largest_remainder(std::span<const std::size_t> counts, std::size_t total) {
  const std::size_t all = std::accumulate(counts.begin(), counts.end(), std::size_t{0});
  total = std::min(total, all);
  std::vector<std::size_t> seats(counts.size(), 0);
  if (all == 0) return seats;
  Places order(counts.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  for (std::size_t k = 0; k < counts.size(); ++k) seats[k] = total * counts[k] / all;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const auto key = [&](std::size_t k) { return std::tuple(total * counts[k] % all, counts[k]); };
    return key(a) > key(b);
  });
  std::size_t left = total - std::accumulate(seats.begin(), seats.end(), std::size_t{0});
  for (std::size_t i = 0; left > 0; ++i, --left) seats[order[i]] += 1;
  return seats;
}

std::vector<std::size_t> honest_reel(std::span<const FilmedSnap> snaps, double seconds,
                                     std::uint64_t seed) {
  const std::vector<Places> kinds = shuffled_by_kind(snaps, seed);
  std::vector<std::size_t> counts;
  counts.reserve(kinds.size());
  for (const Places& kind : kinds) counts.push_back(kind.size());
  Places reel;
  for (std::size_t count = 1; count <= snaps.size(); ++count) {
    Places more = taken(kinds, largest_remainder(counts, count));
    if (length_of(snaps, more) > seconds) break;
    reel = std::move(more);
  }
  return reel;
}

}  // namespace callfit

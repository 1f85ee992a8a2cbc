#include <callfit/chart/film.hpp>

#include <algorithm>
#include <tuple>

namespace callfit {
namespace {

struct Stretch {
  double first, last;
};

// Clips of two charts are two, whatever their names.
using Reel = std::tuple<std::size_t, SharedText, SharedText>;

Reel reel_of(std::size_t chart, const Snap& snap) {
  return {chart, snap.clip, snap.clip.empty() ? snap.game : SharedText{}};
}

}  // namespace

double Film::seconds_for(double more, std::size_t count) const {
  return seconds * more / static_cast<double>(count);
}

Film film_of(const std::vector<Chart>& charts) {
  Film film;
  std::map<Reel, Stretch> reels;
  for (std::size_t c = 0; c < charts.size(); ++c)
    for (const Snap& snap : charts[c].snaps) {
      if (!snap.start || !snap.end) continue;
      const double start = *snap.start;
      const double end = *snap.end;
      const auto [at, is_new] = reels.try_emplace(reel_of(c, snap), Stretch{start, end});
      if (!is_new) at->second = {std::min(at->second.first, start), std::max(at->second.last, end)};
      film.snaps[snap.family.str()] += 1;
    }
  for (const auto& [reel, stretch] : reels) film.seconds += stretch.last - stretch.first;
  return film;
}

}  // namespace callfit

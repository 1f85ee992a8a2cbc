#include <profile/rate_tally.hpp>

namespace callfit {
namespace {

void add_to(RateCounts& counts, bool made, double weight) {
  counts.of += 1;
  counts.effective_of += weight;
  if (!made) return;
  counts.made += 1;
  counts.effective_made += weight;
}

}  // namespace

void RateTally::add(const WeightedSnap& weighted, bool made) {
  const Snap& snap = *weighted.snap;
  const std::size_t slot = snap.shell ? static_cast<std::size_t>(*snap.shell) : shell_count;
  const std::size_t part = weighted.level * shell_slots + slot;
  add_to(total_[part], made, weighted.weight);
  for (std::size_t c = 0; c < cell_count; ++c) {
    if (!in_cell(snap, static_cast<Cell>(c))) continue;
    cells_[c].resize(total_.size());
    add_to(cells_[c][part], made, weighted.weight);
  }
}

RateCounts RateTally::sum(const Parts& parts) {
  RateCounts total;
  for (const RateCounts& part : parts) {
    total.made += part.made;
    total.of += part.of;
    total.effective_made += part.effective_made;
    total.effective_of += part.effective_of;
  }
  return total;
}

}  // namespace callfit

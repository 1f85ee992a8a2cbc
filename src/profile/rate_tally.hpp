// Counts behind one rate of one family, apart by level, shell and cell.
#pragma once

#include <profile/weights.hpp>

#include <array>
#include <cstddef>
#include <vector>

namespace callfit {

/// Shells and, last, snaps whose shell was not charted.
inline constexpr std::size_t shell_slots = shell_count + 1;

class RateTally {
 public:
  explicit RateTally(std::size_t levels = 0) { total_.resize(levels * shell_slots); }

  void add(const WeightedSnap& weighted, bool made);

  RateCounts counts() const { return sum(total_); }
  RateCounts counts(Cell cell) const { return sum(in(cell)); }

  /// Weighted counts of one level and shell slot: all of them, and those inside a cell.
  RateCounts at(std::size_t level, std::size_t slot) const {
    return total_[level * shell_slots + slot];
  }
  RateCounts at(Cell cell, std::size_t level, std::size_t slot) const {
    return in(cell).empty() ? RateCounts{} : in(cell)[level * shell_slots + slot];
  }
  std::size_t levels() const { return total_.size() / shell_slots; }

 private:
  using Parts = std::vector<RateCounts>;  // [level * shell_slots + slot]

  const Parts& in(Cell cell) const { return cells_[static_cast<std::size_t>(cell)]; }
  static RateCounts sum(const Parts& parts);

  Parts total_;
  std::array<Parts, cell_count> cells_;  // empty until the first snap in the cell
};

}  // namespace callfit

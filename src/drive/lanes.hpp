// Several quality classes side by side, one lane each, in vector registers that every 64-bit
// machine has. The arithmetic of a lane is that of plain doubles.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>

namespace callfit::drive {

inline constexpr std::size_t lane_count = 4;

struct Lanes {
  using Pair [[gnu::vector_size(2 * sizeof(double))]] = double;
  Pair low{}, high{};

  double operator[](std::size_t lane) const { return lane < 2 ? low[lane] : high[lane - 2]; }
  void set(std::size_t lane, double value) {
    if (lane < 2)
      low[lane] = value;
    else
      high[lane - 2] = value;
  }
  void add(const Lanes& other) {
    low += other.low;
    high += other.high;
  }
  void add_product(const Lanes& by, const Lanes& other) {
    low += by.low * other.low;
    high += by.high * other.high;
  }
  void add_product(const Lanes& by, double other) {
    low += by.low * other;
    high += by.high * other;
  }
  void add(double value) {
    low += value;
    high += value;
  }
  void scale(double by) {
    low *= by;
    high *= by;
  }
  void scale(const Lanes& by) {
    low *= by.low;
    high *= by.high;
  }
  /// At least as large as the gap between two others.
  void raise_to_gap(const Lanes& a, const Lanes& b) {
    raise(low, a.low - b.low);
    raise(high, a.high - b.high);
  }
  double largest() const { return std::max(std::max(low[0], low[1]), std::max(high[0], high[1])); }

 private:
  static void raise(Pair& most, Pair gap) {
    const Pair size = gap < 0.0 ? -gap : gap;
    most = size > most ? size : most;
  }
};

/// K columns of a state, [column][lane]. Columns given as plain numbers are the same in every lane.
template <std::size_t K>
struct Cell {
  std::array<Lanes, K> column;

  void clear() { column.fill(Lanes{}); }
  void add(const Cell& other) {
    for (std::size_t k = 0; k < K; ++k) column[k].add(other.column[k]);
  }
  void add_product(const Lanes& by, const Cell& other) {
    for (std::size_t k = 0; k < K; ++k) column[k].add_product(by, other.column[k]);
  }
  void add_product(double by, const Cell& other) {
    for (std::size_t k = 0; k < K; ++k) column[k].add_product(other.column[k], by);
  }
  void add_product(const Lanes& by, const double* columns) {
    for (std::size_t k = 0; k < K; ++k) column[k].add_product(by, columns[k]);
  }
  void add_product(double by, const double* columns) {
    for (std::size_t k = 0; k < K; ++k) column[k].add(by * columns[k]);
  }
  void scale(double by) {
    for (Lanes& lanes : column) lanes.scale(by);
  }
  void scale(const Lanes& by) {
    for (Lanes& lanes : column) lanes.scale(by);
  }
  void raise_to_gap(const Cell& other, Lanes& most) const {
    for (std::size_t k = 0; k < K; ++k) most.raise_to_gap(column[k], other.column[k]);
  }
};

}  // namespace callfit::drive

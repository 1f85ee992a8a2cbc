// Several quality classes side by side, one lane each, in vector registers. The arithmetic of a
// lane is that of plain doubles, whatever the registers' width.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstring>
#include <vector>

namespace callfit::drive {

inline constexpr std::size_t lane_count = 4;

/// The lanes in vector registers of `width` doubles, 2 or 4.
template <std::size_t width>
struct LanesOf {
  using Part [[gnu::vector_size(width * sizeof(double))]] = double;
  static constexpr std::size_t parts = lane_count / width;
  alignas(width * sizeof(double)) Part part[parts]{};  // std::array would drop the attribute

  static LanesOf of(const std::array<double, lane_count>& values) {
    LanesOf out;
    std::memcpy(out.part, values.data(), sizeof(values));
    return out;
  }
  double operator[](std::size_t lane) const { return part[lane / width][lane % width]; }
  void set(std::size_t lane, double value) { part[lane / width][lane % width] = value; }
  void add(const LanesOf& other) {
    for (std::size_t i = 0; i < parts; ++i) part[i] += other.part[i];
  }
  void add_product(const LanesOf& by, const LanesOf& other) {
    for (std::size_t i = 0; i < parts; ++i) part[i] += by.part[i] * other.part[i];
  }
  void add_product(const LanesOf& by, double other) {
    for (std::size_t i = 0; i < parts; ++i) part[i] += by.part[i] * other;
  }
  void add_product(double by, const LanesOf& other) {
    for (std::size_t i = 0; i < parts; ++i) part[i] += by * other.part[i];
  }
  void add(double value) {
    for (Part& lanes : part) lanes += value;
  }
  void scale(double by) {
    for (Part& lanes : part) lanes *= by;
  }
  void scale(const LanesOf& by) {
    for (std::size_t i = 0; i < parts; ++i) part[i] *= by.part[i];
  }
  /// At least as large as the gap between two others.
  void raise_to_gap(const LanesOf& a, const LanesOf& b) {
    for (std::size_t i = 0; i < parts; ++i) {
      const Part gap = a.part[i] - b.part[i];
      const Part size = gap < 0.0 ? -gap : gap;
      part[i] = size > part[i] ? size : part[i];
    }
  }
  double largest() const {
    double most = (*this)[0];
    for (std::size_t lane = 1; lane < lane_count; ++lane) most = std::max(most, (*this)[lane]);
    return most;
  }
};

/// Numbers of like things, one of each a lane.
template <class Lanes>
std::vector<Lanes> side_by_side(const std::array<const double*, lane_count>& of,
                                std::size_t count) {
  static_assert(lane_count == 4);
  std::vector<Lanes> out;
  out.reserve(count);
  for (std::size_t i = 0; i < count; ++i)
    out.push_back(Lanes::of({of[0][i], of[1][i], of[2][i], of[3][i]}));
  return out;
}

/// What every 64-bit machine has.
using NarrowLanes = LanesOf<2>;
/// For functions compiled for processors with vectors of 256 bits.
using WideLanes = LanesOf<4>;

/// K columns of a state, [column][lane]. Columns given as plain numbers are the same in every lane.
template <std::size_t K, class Lanes>
struct LaneCell {
  std::array<Lanes, K> column;

  void clear() { column.fill(Lanes{}); }
  void add(const LaneCell& other) {
    for (std::size_t k = 0; k < K; ++k) column[k].add(other.column[k]);
  }
  void add_product(const Lanes& by, const LaneCell& other) {
    for (std::size_t k = 0; k < K; ++k) column[k].add_product(by, other.column[k]);
  }
  void add_product(double by, const LaneCell& other) {
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
  void raise_to_gap(const LaneCell& other, Lanes& most) const {
    for (std::size_t k = 0; k < K; ++k) most.raise_to_gap(column[k], other.column[k]);
  }
};

}  // namespace callfit::drive

// Points, boxes and the cutting of boxes that lays out a page. Pixels, y grows downward.
#pragma once

#include <cstddef>
#include <vector>

namespace callfit {

struct Point {
  double x = 0;
  double y = 0;
};

struct Box {
  double x = 0;
  double y = 0;
  double width = 0;
  double height = 0;

  constexpr double right() const { return x + width; }
  constexpr double bottom() const { return y + height; }
  constexpr double middle_x() const { return x + width / 2; }
  constexpr double middle_y() const { return y + height / 2; }

  constexpr Box inset(double across, double down) const {
    return {x + across, y + down, width - 2 * across, height - 2 * down};
  }
  /// Cuts a strip off this box, leaves the rest (less `gap`), returns the strip. A strip longer
  /// than the box takes all of it.
  Box take_top(double size, double gap = 0);
  Box take_bottom(double size, double gap = 0);
  Box take_left(double size, double gap = 0);
  Box take_right(double size, double gap = 0);

  bool contains(const Box& other, double slack = 0) const;
  bool overlaps(const Box& other, double slack = 0) const;  ///< by more than `slack` each way
};

/// `count` equal boxes beside or below each other.
std::vector<Box> columns(const Box& box, std::size_t count, double gap);
std::vector<Box> rows(const Box& box, std::size_t count, double gap);

}  // namespace callfit

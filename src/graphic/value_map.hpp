// A table one can see: a value with its interval in every cell, tinted by whose intervals lie
// apart.
#pragma once

#include "graphic/parts.hpp"

#include <string>
#include <vector>

namespace callfit {

enum class CellFrame { fine, dashed, solid };

struct MapCell {
  Number value;
  std::string text;   ///< the value
  std::string range;  ///< its interval
  std::string aside;  ///< where there is room; may be empty
  CellFrame frame = CellFrame::fine;
};

struct ValueMap {
  std::vector<std::string> rows, columns;
  std::vector<std::vector<MapCell>> cells;  ///< [row][column]
  std::string axis_note;
  std::string aside_note{};                 ///< added where the asides are drawn
  std::string row_title{}, column_title{};  ///< what all rows, all columns are of
};

/// How far up each value stands by differences that are larger than the intervals: 0 where no
/// other interval lies wholly below, else one more than the highest of those that do. Intervals of
/// values on one step overlap.
std::vector<int> steps_apart(const std::vector<Number>& values);

void paint_value_map(Canvas& canvas, const Box& box, const ValueMap& map);

}  // namespace callfit

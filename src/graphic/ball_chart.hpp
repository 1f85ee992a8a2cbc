// Rows of balls over one axis: label and note on the left, ball in the middle, value on the right.
// Several pictures are such a chart with other words.
#pragma once

#include "graphic/parts.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

struct BallLine {
  Number at;          ///< on the axis
  std::string name;   ///< of what is measured; may be empty
  std::string value;  ///< the estimate in words
  std::string aside;  ///< said beside it, quieter
  double weight = 1;  ///< relative to the largest of the chart: the ball's thickness
  Ink ink = Ink::first;
  Fill fill = Fill::solid;
  std::optional<double> stick;         ///< this line's own stick, where the chart has none for all
  std::string id = {}, aside_id = {};  ///< of the ball, and of what is said beside it
  std::optional<double> was = {};      ///< where it began, if it has moved since
};

struct BallBlock {
  std::string label;
  std::string note;        ///< quieter, below or beside the label
  std::string short_note;  ///< where label and note share one line
  std::vector<BallLine> lines;
  std::string without_lines;  ///< said where there are none
  std::string note_id = {};
};

struct BallHead {
  std::string text;
  Ink ink = Ink::ink;
};

struct BallChart {
  std::vector<BallBlock> blocks;
  std::optional<double> stick;  ///< one for all lines
  std::string short_note_head;  ///< over the short notes
  BallHead below, above;        ///< what lies left and right of it
  Range least{0, 0};            ///< the axis holds at least this
  double farthest = 1e9;        ///< an interval may run out of the axis, an estimate may not
  std::function<std::string(double, int)> tick_text;  ///< (tick, digits after the point)
  std::string axis_note;
  std::size_t left_out = 0;  ///< blocks that are not among these
};

/// Height of one line of a block that has room for two lines of text.
double comfortable_line(const TextScale& sizes);

void paint_ball_chart(Canvas& canvas, const Box& box, const BallChart& chart,
                      const Wording& wording);

}  // namespace callfit

// Curves with bands over two axes; on paper or on grass.
#pragma once

#include <callfit/graphic/curves.hpp>

#include "graphic/parts.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

struct LevelLine {
  double y = 0;
  std::string label;
};

struct CurveChart {
  std::vector<Curve> curves;  ///< the first in the first colour, the second dashed in the second
  Range x{0, 1};              ///< low may lie right of high: an axis that runs backward
  std::vector<double> x_ticks;
  std::function<std::string(double)> x_text;
  std::function<std::string(double)> y_text;
  std::string x_note, y_note;
  bool grass = false;
  bool names = true;  ///< at the ends of the curves
  std::vector<LevelLine> levels;
  std::optional<Reading> now;  ///< a ball on the x axis
  std::string now_label;
};

void paint_curve_chart(Canvas& canvas, const Box& box, const CurveChart& chart);

/// x at which the curve, read through `part`, first passes `level`; nullopt when it never does.
std::optional<double> crossing(const Curve& curve, double Reading::*part, double level);

}  // namespace callfit

// Curves with bands over two axes; on paper or on grass.
#pragma once

#include "graphic/parts.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

struct CurvePoint {
  double x = 0;
  Number y;
};

struct Curve {
  std::string label;
  std::vector<CurvePoint> points;  ///< x ascending, at least 2
};

struct CurveChart {
  std::vector<Curve> curves;  ///< the first in the first colour, the second dashed in the second
  Range x{0, 1};              ///< low may lie right of high: an axis that runs backward
  std::vector<double> x_ticks;
  std::function<std::string(double)> x_text;
  std::function<std::string(double, int)> y_text;  ///< (tick, digits after the point)
  std::string x_note, y_note;
  bool grass = false;
  bool names = true;          ///< at the ends of the curves
  std::optional<double> now;  ///< a stick on the x axis
  std::string now_label;
};

void paint_curve_chart(Canvas& canvas, const Box& box, const CurveChart& chart);

}  // namespace callfit

#include "graphic/curve_chart.hpp"

#include <algorithm>
#include <callfit/base/isolated.hpp>

namespace callfit {
namespace {

constexpr int most_y_ticks = 7;

struct CurveLayout {
  Box plot;
  LinearScale x, y;
  std::vector<double> y_ticks;
  Ink ground;
};

struct YAxis {
  Range range;
  std::vector<double> ticks;
};

// As many round ticks as find room below each other.
YAxis y_axis(const CurveChart& chart, double height, double text) {
  std::vector<Number> numbers;
  for (const Curve& curve : chart.curves)
    for (const CurvePoint& point : curve.points) numbers.push_back(point.y);
  if (numbers.empty()) return {};
  const Range held = hull(numbers, numbers.front().centre);
  for (int wanted = most_y_ticks; wanted > 1; --wanted) {
    const Range range = round_range(held.low, held.high, wanted);
    const auto ticks = round_ticks(range.low, range.high, wanted);
    if (static_cast<double>(ticks.size()) * 1.25 * text <= height) return {range, ticks};
  }
  return {held, {}};
}

CurveLayout layout_of(const Canvas& canvas, Box box, const CurveChart& chart) {
  const TextScale& sizes = canvas.sizes();
  box.take_top(1.5 * sizes.small);
  box.take_bottom(2.9 * sizes.small);
  const YAxis axis = y_axis(chart, box.height, sizes.small);
  double tick_width = 0;
  for (const double tick : axis.ticks)
    tick_width = std::max(
        tick_width, canvas.width_of({chart.y_text(tick, decimals_of(axis.ticks)), sizes.small}));
  box.take_left(tick_width + 14);
  box.take_right(20);
  return {box, LinearScale(chart.x.low, chart.x.high, box.x, box.right()),
          LinearScale(axis.range.low, axis.range.high, box.bottom(), box.y), axis.ticks,
          chart.grass ? Ink::field : Ink::paper};
}

void paint_axes(Canvas& canvas, const CurveLayout& layout, const CurveChart& chart) {
  const TextScale& sizes = canvas.sizes();
  const Box& plot = layout.plot;
  if (chart.grass) canvas.fill(plot, canvas.colour(Ink::field));
  const Ink fine = chart.grass ? Ink::field_line : Ink::rule;
  for (const double tick : chart.x_ticks) {
    const double x = layout.x(tick);
    canvas.line({x, plot.y}, {x, plot.bottom()}, fine, chart.grass ? 3 : 1.5);
    canvas.write({chart.x_text(tick), sizes.small, Ink::quiet, chart.grass, Anchor::middle},
                 {x, plot.bottom() + 1.2 * sizes.small}, 120);
  }
  for (const double tick : layout.y_ticks) {
    const double y = layout.y(tick);
    const bool zero = std::abs(tick) < 1e-9;
    canvas.line({plot.x, y}, {plot.right(), y}, zero ? Ink::quiet : fine, zero ? 3 : 1.5);
    canvas.write({chart.y_text(tick, decimals_of(layout.y_ticks)), sizes.small, Ink::quiet, false,
                  Anchor::end},
                 {plot.x - 10, y + 0.355 * sizes.small}, 160);
  }
  canvas.write({chart.y_note, sizes.small, Ink::quiet, true}, {plot.x, plot.y - 0.5 * sizes.small},
               plot.width);
  canvas.write({chart.x_note, sizes.small, Ink::quiet, false, Anchor::middle},
               {plot.middle_x(), plot.bottom() + 2.55 * sizes.small}, plot.width);
}

std::vector<PathStep> path_through(const CurveLayout& layout, const Curve& curve,
                                   double Number::*part) {
  std::vector<PathStep> steps;
  for (const CurvePoint& point : curve.points)
    steps.push_back({steps.empty() ? 'M' : 'L', {layout.x(point.x), layout.y(point.y.*part)}});
  return steps;
}

void paint_band(Canvas& canvas, const CurveLayout& layout, const Curve& curve, Ink ink) {
  auto outline = path_through(layout, curve, &Number::high);
  auto back = path_through(layout, curve, &Number::low);
  for (auto step = back.rbegin(); step != back.rend(); ++step)
    outline.push_back({'L', step->numbers});
  outline.push_back({'Z', {}});
  const Colour tint = mix(canvas.colour(ink), canvas.colour(layout.ground), 0.78);
  canvas.path(outline, {tint, std::nullopt, Role::decor});
}

void paint_edges(Canvas& canvas, const CurveLayout& layout, const Curve& curve, Ink ink,
                 bool dashed) {
  const Stroke fine{canvas.colour(ink), 1.5, {}};
  canvas.path(path_through(layout, curve, &Number::low), {std::nullopt, fine, Role::mark});
  canvas.path(path_through(layout, curve, &Number::high), {std::nullopt, fine, Role::mark});
  Stroke thick{canvas.colour(ink), 6, {}};
  if (dashed) thick.dash = {18, 9};
  canvas.path(path_through(layout, curve, &Number::centre), {std::nullopt, thick, Role::mark});
}

// Names in a key above the plot's upper left or right corner, whichever the curves leave free.
void paint_names(Canvas& canvas, const CurveLayout& layout, const CurveChart& chart) {
  const auto count = static_cast<double>(chart.curves.size());
  const double size = std::min(canvas.sizes().body, layout.plot.height / (1.4 * count + 0.5));
  double y = layout.plot.y + 1.5 * size;
  for (std::size_t i = 0; i < chart.curves.size(); ++i) {
    const Ink ink = i == 0 ? Ink::first : Ink::second;
    const double x = layout.plot.x + 24;
    Stroke stroke{canvas.colour(ink), 6, {}};
    if (i > 0) stroke.dash = {18, 9};
    canvas.add({LineShape{
        {x, y - 0.355 * size}, {x + 63, y - 0.355 * size}, {std::nullopt, stroke, Role::mark}}});
    canvas.write({isolated(chart.curves[i].label), size, ink, true}, {x + 78, y},
                 0.6 * layout.plot.width);
    y += 1.4 * size;
  }
}

void paint_now(Canvas& canvas, const CurveLayout& layout, const CurveChart& chart) {
  if (!chart.now) return;
  const double size = canvas.sizes().small, bottom = layout.plot.bottom();
  const double x = layout.x.clamped(*chart.now);
  draw_stick(canvas, x, bottom - 1.6 * size, bottom + 8);
  const bool left = x < layout.plot.middle_x();
  const double edge = x + (left ? 16 : -16);
  canvas.write({chart.now_label, size, Ink::ink, true, left ? Anchor::start : Anchor::end},
               {edge, bottom - 0.5 * size},
               left ? layout.plot.right() - edge : edge - layout.plot.x);
}

}  // namespace

void paint_curve_chart(Canvas& canvas, const Box& box, const CurveChart& chart) {
  const CurveLayout layout = layout_of(canvas, box, chart);
  paint_axes(canvas, layout, chart);
  const auto ink_of = [](std::size_t i) { return i == 0 ? Ink::first : Ink::second; };
  for (std::size_t i = 0; i < chart.curves.size(); ++i)
    paint_band(canvas, layout, chart.curves[i], ink_of(i));
  for (std::size_t i = 0; i < chart.curves.size(); ++i)
    canvas.grouped(chart.curves[i].label, [&](Canvas& group) {
      paint_edges(group, layout, chart.curves[i], ink_of(i), i > 0);
    });
  paint_now(canvas, layout, chart);
  if (chart.names) paint_names(canvas, layout, chart);
}

}  // namespace callfit

#include <callfit/graphic/trend.hpp>

#include "graphic/parts.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace callfit {
namespace {

bool left_band(const TrendPoint& step, const TrendSeries& series) {
  const Reading& first = series.steps.front().value;
  return step.value.value < first.low || step.value.value > first.high;
}

LinearScale scale_of(const TrendSeries& series, const Box& plot) {
  std::vector<Reading> readings;
  for (const TrendPoint& step : series.steps) readings.push_back(step.value);
  Range range = hull(readings, series.usual.value_or(readings.front().value));
  const double margin = std::max(0.06 * (range.high - range.low), 1e-3);
  range = {range.low - margin, range.high + margin};
  if (series.unit == Unit::share) range = {std::max(range.low, 0.0), std::min(range.high, 1.0)};
  return {range.low, range.high, plot.bottom() - 4, plot.y + 6};
}

void paint_ticks(Canvas& canvas, const Box& plot, const LinearScale& y, Unit unit, double room) {
  for (const double tick : round_ticks(y.low(), y.high(), 3)) {
    canvas.line({plot.x, y(tick)}, {plot.right(), y(tick)}, Ink::rule, 1.5);
    canvas.write({value_text(tick, unit), canvas.sizes().foot, Ink::quiet, false, Anchor::end},
                 {plot.x - 8, y(tick) + 0.355 * canvas.sizes().foot}, room);
  }
}

// The first answer goes right across, so that one glance tells whether it held.
void paint_first_answer(Canvas& canvas, const Box& plot, const LinearScale& y,
                        const TrendSeries& series) {
  const Colour tint = mix(canvas.colour(Ink::first), canvas.colour(Ink::paper), 0.8);
  const Reading& first = series.steps.front().value;
  const double top = y(first.high), bottom = y(first.low);
  canvas.fill({plot.x, top, plot.width, std::max(bottom - top, 1.0)}, tint);
  canvas.line({plot.x, y(first.value)}, {plot.right(), y(first.value)}, Ink::first, 3, Role::mark);
  if (series.usual)
    canvas.add(
        {LineShape{{plot.x, y(*series.usual)},
                   {plot.right(), y(*series.usual)},
                   {std::nullopt, Stroke{canvas.colour(Ink::stick), 3, {4, 8}}, Role::mark}}});
}

void paint_steps(Canvas& canvas, const Box& plot, const LinearScale& y, const TrendSeries& series) {
  const double step = plot.width / static_cast<double>(series.steps.size());
  double x = plot.x + step / 2;
  for (const TrendPoint& point : series.steps) {
    const Fill fill = left_band(point, series) ? Fill::solid : Fill::hollow;
    draw_upright_ball(canvas, y, point.value, x,
                      {std::min(0.5 * step, 24.0), Ink::first, fill, Ink::paper});
    x += step;
  }
}

double tick_room(Canvas& canvas, const TrendSeries& series) {
  double widest = 0;
  for (const TrendPoint& step : series.steps)
    for (const double value : {step.value.low, step.value.high})
      widest =
          std::max(widest, canvas.width_of({value_text(value, series.unit), canvas.sizes().foot}));
  return widest + 12;
}

std::string first_and_now(const TrendSeries& series, const Wording& wording) {
  const Reading& first = series.steps.front().value;
  const Reading& now = series.steps.back().value;
  return wording("trend_level", {{"first", value_text(first.value, series.unit)},
                                 {"first_range", range_text(first, series.unit, wording)},
                                 {"now", value_text(now.value, series.unit)},
                                 {"now_range", range_text(now, series.unit, wording)}});
}

void paint_series(Canvas& canvas, Box box, const TrendSeries& series, const Wording& wording) {
  const TextScale& sizes = canvas.sizes();
  canvas.write_in({isolated(series.label), sizes.body, Ink::ink, true},
                  {box.x, box.y, box.width, 1.2 * sizes.body});
  canvas.write_in({first_and_now(series, wording), sizes.foot, Ink::quiet},
                  {box.x, box.y + 1.2 * sizes.body, box.width, 1.5 * sizes.foot});
  box.take_top(1.25 * sizes.body + 1.6 * sizes.foot);
  const Box names = box.take_bottom(1.5 * sizes.foot);
  const double room = tick_room(canvas, series);
  box.take_left(room);
  const LinearScale y = scale_of(series, box);
  paint_first_answer(canvas, box, y, series);
  paint_ticks(canvas, box, y, series.unit, room);
  paint_steps(canvas, box, y, series);
  const double half = box.width / 2 - 10;
  canvas.write({series.steps.front().after, sizes.foot, Ink::quiet},
               {box.x, names.y + 1.1 * sizes.foot}, half);
  if (series.steps.size() > 1)
    canvas.write({series.steps.back().after, sizes.foot, Ink::quiet, false, Anchor::end},
                 {box.right(), names.y + 1.1 * sizes.foot}, half);
}

std::size_t columns_for(std::size_t count, const Box& box) {
  // A chart about twice as wide as high reads best; an empty place costs as well.
  std::size_t best = 1;
  double least = 1e9;
  for (std::size_t across = 1; across <= std::min<std::size_t>(count, 4); ++across) {
    const std::size_t down = (count + across - 1) / across;
    const double shape = (box.width / static_cast<double>(across)) /
                         std::max(box.height / static_cast<double>(down), 1.0);
    const double cost = std::abs(std::log(shape / 2)) +
                        static_cast<double>(across * down - count) / static_cast<double>(count);
    if (cost < least) {
      least = cost;
      best = across;
    }
  }
  return best;
}

void paint(Canvas& canvas, const Box& box, const TrendPicture& values, const Wording& wording) {
  const std::size_t count = values.series.size();
  if (count == 0) return;
  const std::size_t across = columns_for(count, box);
  // A small panel shows the first ones, but shows them readably.
  const auto most = static_cast<std::size_t>(box.height / (9 * canvas.sizes().foot));
  const std::size_t down = std::min((count + across - 1) / across, std::max<std::size_t>(most, 1));
  std::size_t next = 0;
  for (const Box& row : rows(box, down, 22))
    for (const Box& cell : columns(row, across, 44)) {
      if (next == count) return;
      const TrendSeries& series = values.series[next++];
      canvas.grouped(series.label,
                     [&](Canvas& group) { paint_series(group, cell, series, wording); });
    }
}

std::string steps_text(const TrendSeries& series, const Wording& wording) {
  std::string line = isolated(series.label) + ":";
  for (const TrendPoint& step : series.steps)
    line += " " + isolated(step.after) + " " + value_text(step.value.value, series.unit) + " (" +
            range_text(step.value, series.unit, wording) + ").";
  return line + "\n";
}

double charted_snaps(const TrendPicture& values) {
  double snaps = 0;
  if (!values.series.empty())
    for (const TrendPoint& step : values.series.front().steps) snaps += step.snaps;
  return snaps;
}

Telling telling_of(const TrendPicture& values, const Wording& wording) {
  std::vector<std::string> left;
  std::string lines;
  for (const TrendSeries& series : values.series) {
    if (!series.held()) left.push_back(series.label);
    lines += steps_text(series, wording);
  }
  const double snaps = charted_snaps(values);
  const Wording::Values words = {{"player", isolated(values.player)},
                                 {"snaps", number_text(snaps, 0)},
                                 {"left", std::to_string(left.size())},
                                 {"all", std::to_string(values.series.size())},
                                 {"list", name_list(left, 2, wording)}};
  if (snaps <= 0)
    return {
        wording("trend_kicker"), wording("trend_none", words), {}, wording("trend_note"), lines};
  return {wording("trend_kicker"),
          wording(left.empty() ? "trend_held" : "trend_left", words),
          {wording(left.empty() ? "trend_held_deck" : "trend_left_deck", words)},
          wording("trend_note"),
          lines};
}

}  // namespace

bool TrendSeries::held() const { return !left_band(steps.back(), *this); }

Panel trend_panel(const TrendPicture& values, const Wording& wording) {
  return {telling_of(values, wording), [values, wording](Canvas& canvas, const Box& box) {
            paint(canvas, box, values, wording);
          }};
}

}  // namespace callfit

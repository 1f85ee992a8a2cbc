#include <callfit/graphic/pictures.hpp>

#include <callfit/base/isolated.hpp>
#include "graphic/curve_chart.hpp"
#include "graphic/value_map.hpp"
#include "report/phrases.hpp"

#include <callfit/report/number_text.hpp>

#include <algorithm>
#include <cmath>
#include <string>

namespace callfit {
namespace {

const Number& change_at(const SweepAnswer& sweep, std::size_t row, std::size_t column = 0) {
  return sweep.cells.at(row).at(column).net_points_per_game_change;
}

Curve curve_of(const SweepAnswer& sweep) {
  Curve curve{sweep.about.quarterback, {}};
  const auto& at = sweep.axes.front().at;
  for (std::size_t i = 0; i < at.size(); ++i) curve.points.push_back({at[i], change_at(sweep, i)});
  std::sort(curve.points.begin(), curve.points.end(),
            [](const CurvePoint& a, const CurvePoint& b) { return a.x < b.x; });
  return curve;
}

CurveChart chart_of(const SweepAnswer& sweep, const Wording& wording) {
  const SweepAxis& axis = sweep.axes.front();
  CurveChart chart;
  chart.curves = {curve_of(sweep)};
  const auto& points = chart.curves.front().points;
  chart.x = {points.front().x, points.back().x};
  chart.x_ticks = round_ticks(chart.x.low, chart.x.high, 6);
  const int decimals = decimals_of(chart.x_ticks);
  chart.x_text = [unit = axis.unit, decimals](double x) {
    return unit == KnobUnit::share ? percent_tick(x, decimals) : fixed(x, decimals);
  };
  chart.y_text = signed_fixed;
  chart.x_note = axis.label;
  chart.y_note = wording("sweep_change");
  chart.names = false;
  chart.now = axis.now;
  chart.now_label = wording("sweep_now", {{"value", knob_text(axis.unit, axis.now)}});
  return chart;
}

// What was tried, in words, and what came of it.
struct Tried {
  std::string what;
  Number change;
};

std::string value_of(const SweepAxis& axis, double at, const Wording& wording) {
  return wording("sweep_at",
                 {{"quantity", isolated(axis.label)}, {"value", knob_text(axis.unit, at)}});
}

std::vector<Tried> tries_of(const SweepAnswer& sweep, const Wording& wording) {
  std::vector<Tried> tries;
  const SweepAxis& rows = sweep.axes.front();
  for (std::size_t r = 0; r < rows.at.size(); ++r) {
    const std::string row = value_of(rows, rows.at[r], wording);
    if (sweep.axes.size() < 2) {
      tries.push_back({row, change_at(sweep, r)});
      continue;
    }
    const SweepAxis& columns = sweep.axes[1];
    for (std::size_t c = 0; c < columns.at.size(); ++c)
      tries.push_back(
          {row + ", " + value_of(columns, columns.at[c], wording), change_at(sweep, r, c)});
  }
  return tries;
}

std::string result_of(const Tried& tried, const Wording& wording) {
  return wording("sweep_result", {{"what", tried.what},
                                  {"change", value_text(Unit::signed_points, tried.change.centre)},
                                  {"range", range_text(Unit::signed_points, tried.change)}});
}

// The largest change that is clear.
std::string headline(const SweepAnswer& sweep, const std::vector<Tried>& tries,
                     const Wording& wording) {
  const auto sure = [](const Tried& tried) {
    return one_sided(tried.change) ? std::abs(tried.change.centre) : -1.0;
  };
  const auto best =
      std::max_element(tries.begin(), tries.end(),
                       [&](const Tried& a, const Tried& b) { return sure(a) < sure(b); });
  if (best != tries.end() && sure(*best) >= 0) return capital(result_of(*best, wording));
  return wording("sweep_none", {{"player", isolated(sweep.about.quarterback)},
                                {"quantity", isolated(sweep.axes.front().label)}});
}

Telling telling_of(const SweepAnswer& sweep, const Wording& wording, const std::string& note) {
  const auto tries = tries_of(sweep, wording);
  std::string now, lines;
  for (const SweepAxis& axis : sweep.axes)
    now += (now.empty() ? "" : ", ") + value_of(axis, axis.now, wording);
  for (const Tried& tried : tries) lines += result_of(tried, wording) + ".\n";
  return {wording("sweep_kicker", {{"player", isolated(sweep.about.quarterback)},
                                   {"scheme", isolated(sweep.about.scheme)}}),
          headline(sweep, tries, wording),
          {wording("sweep_today", {{"now", now}})},
          {note},
          lines};
}

ValueMap map_of(const SweepAnswer& sweep, const Wording& wording) {
  ValueMap map;
  map.axis_note = wording("grid_axis");
  const auto values = [](const SweepAxis& axis) {
    std::vector<std::string> out;
    for (const double at : axis.at) out.push_back(knob_text(axis.unit, at));
    return out;
  };
  map.rows = values(sweep.axes[0]);
  map.columns = values(sweep.axes[1]);
  map.row_title = isolated(sweep.axes[0].label);
  map.column_title = isolated(sweep.axes[1].label);
  for (std::size_t r = 0; r < map.rows.size(); ++r) {
    map.cells.emplace_back();
    for (std::size_t c = 0; c < map.columns.size(); ++c) {
      const Number& change = change_at(sweep, r, c);
      map.cells.back().push_back({change, value_text(Unit::signed_points, change.centre),
                                  range_text(Unit::signed_points, change), "",
                                  one_sided(change) ? CellFrame::solid : CellFrame::fine});
    }
  }
  return map;
}

}  // namespace

Panel sweep_panel(const SweepAnswer& sweep, const Wording& wording) {
  if (sweep.axes.size() > 1)
    return {telling_of(sweep, wording, wording("grid_note")),
            [map = map_of(sweep, wording), wording](Canvas& canvas, const Box& box) {
              paint_value_map(canvas, box, map);
            }};
  return {telling_of(sweep, wording, wording("band_note")),
          [sweep, wording](Canvas& canvas, const Box& box) {
            paint_curve_chart(canvas, box, chart_of(sweep, wording));
          }};
}

}  // namespace callfit

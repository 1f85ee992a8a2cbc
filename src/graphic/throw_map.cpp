#include <callfit/graphic/throw_map.hpp>

#include "graphic/ball_chart.hpp"
#include "graphic/parts.hpp"

#include <callfit/chart/rate.hpp>

#include <algorithm>
#include <array>
#include <string>

namespace callfit {
namespace {

// Yards. A field is 160 feet wide; lanes are its thirds; deep throws share the space up to 40.
constexpr double field_width = 160.0 / 3.0;
constexpr double behind_line = 4;
constexpr double least_deep_end = 38;  // deep throws get at least this far
constexpr double most_deep_end = 70;

using Grid = std::array<std::array<ThrowCell, 3>, 3>;  // [depth][lane]

Grid grid_of(const ThrowMap& values) {
  Grid grid;
  for (int depth = 0; depth < 3; ++depth)
    for (int lane = 0; lane < 3; ++lane) {
      ThrowCell& cell = grid[static_cast<std::size_t>(depth)][static_cast<std::size_t>(lane)];
      cell.depth = depth;
      cell.lane = lane;
    }
  for (const ThrowCell& cell : values.cells)
    grid.at(static_cast<std::size_t>(cell.depth)).at(static_cast<std::size_t>(cell.lane)) = cell;
  return grid;
}

std::string place_of(const ThrowCell& cell, const Wording& wording) {
  static constexpr std::array depth_keys{"depth_short", "depth_intermediate", "depth_deep"};
  static constexpr std::array lane_keys{"lane_left", "lane_middle", "lane_right"};
  return wording("throw_place",
                 {{"depth", wording(depth_keys.at(static_cast<std::size_t>(cell.depth)))},
                  {"lane", wording(lane_keys.at(static_cast<std::size_t>(cell.lane)))}});
}

Fill fill_of_cell(const ThrowCell& cell) {
  return cell.throws > 0 ? fill_of(cell.completion, cell.usual) : Fill::dashed;
}

Ink ink_of_cell(const ThrowCell& cell) {
  return cell.completion.value < cell.usual ? Ink::second : Ink::first;
}

double largest_share(const ThrowMap& values) {
  double largest = 1e-9;
  for (const ThrowCell& cell : values.cells) largest = std::max(largest, cell.share);
  return largest;
}

struct FieldPlan {
  Box box;
  double yard;      // pixels
  double deep_end;  // yards
  double y(double depth) const { return box.bottom() - (depth + behind_line) * yard; }
  double x(double across) const { return box.x + across * yard; }
};

FieldPlan plan_of(const Box& room) {
  const double yard =
      std::min(room.width / field_width, room.height / (least_deep_end + behind_line));
  const double deep_end = std::min(room.height / yard - behind_line, most_deep_end);
  const double width = field_width * yard, height = (deep_end + behind_line) * yard;
  return {{room.x + (room.width - width) / 2, room.y, width, height}, yard, deep_end};
}

void paint_grass(Canvas& canvas, const FieldPlan& plan) {
  canvas.fill(plan.box, canvas.colour(Ink::field));
  const Colour mown = mix(canvas.colour(Ink::field), canvas.colour(Ink::paper), 0.3);
  for (int from = 5; from < plan.deep_end; from += 10) {
    const double top = plan.y(std::min(from + 5.0, plan.deep_end));
    canvas.fill({plan.box.x, top, plan.box.width, plan.y(from) - top}, mown);
  }
  for (int yards = 1 - static_cast<int>(behind_line); yards < plan.deep_end; ++yards) {
    const double y = plan.y(yards);
    if (yards % 5 == 0) {
      canvas.line({plan.box.x, y}, {plan.box.right(), y}, Ink::field_line, 3);
      continue;
    }
    const double mark = 0.7 * plan.yard;
    for (const double x : {0.0, field_width / 3, 2 * field_width / 3, field_width}) {
      const double left = std::clamp(plan.x(x) - mark / 2, plan.box.x, plan.box.right() - mark);
      canvas.line({left, y}, {left + mark, y}, Ink::field_line, 3);
    }
  }
  canvas.line({plan.box.x, plan.y(0)}, {plan.box.right(), plan.y(0)}, Ink::stick, 6, Role::mark);
}

void paint_depths(Canvas& canvas, const FieldPlan& plan, double room) {
  const double size = canvas.sizes().foot;
  if (intermediate_from * plan.yard < 1.6 * size) return;
  for (const int depth : {0, intermediate_from, deep_from})
    canvas.write({number_text(depth, 0), size, Ink::quiet, true, Anchor::end},
                 {plan.box.x - 10, plan.y(depth) + 0.355 * size}, room);
}

void write_cell(Canvas& canvas, const Box& box, const ThrowCell& cell, const TextScale& sizes,
                const Wording& wording) {
  const double baseline = box.y + 0.86 * sizes.large;
  const double used =
      canvas.write({percent_text(cell.completion.value), sizes.large, Ink::ink, true},
                   {box.x, baseline}, box.width);
  const double gap = 0.35 * sizes.large;
  canvas.write({wording("usual", {{"value", percent_text(cell.usual)}}), sizes.small, Ink::ink},
               {box.x + used + gap, baseline}, box.width - used - gap);
  const std::string throws = cell.throws > 0
                                 ? wording("throw_count", {{"count", number_text(cell.throws, 0)},
                                                           {"share", percent_text(cell.share)}})
                                 : wording("throw_none");
  canvas.write({throws, sizes.small, Ink::quiet}, {box.x, box.y + sizes.large + 1.05 * sizes.small},
               box.width);
}

// In a small panel everything shrinks alike, down to a map of balls alone.
void paint_cell(Canvas& canvas, Box box, const ThrowCell& cell, double largest,
                const Wording& wording) {
  TextScale sizes = canvas.sizes();
  double content = sizes.large + 1.35 * sizes.small + 1.9 * sizes.large;
  const double shrink =
      std::min({1.0, (box.height - 12) / content, box.width / (6.5 * sizes.large)});
  sizes.large *= shrink;
  sizes.small *= shrink;
  content *= shrink;
  box = box.inset(18 * shrink, std::max(6.0, (box.height - content) / 2));
  const double y = box.y + sizes.large + 1.35 * sizes.small + 0.95 * sizes.large;
  const LinearScale x(0, 1, box.x, box.right());
  canvas.line({box.x, y}, {box.right(), y}, Ink::quiet, 2);
  draw_ball(canvas, x, cell.completion, y,
            {ball_thickness(cell.share, largest, 1.7 * sizes.large), ink_of_cell(cell),
             fill_of_cell(cell), Ink::field});
  draw_stick(canvas, x(cell.usual), y - 0.8 * sizes.large, y + 0.8 * sizes.large);
  if (shrink > 0.4) write_cell(canvas, box, cell, sizes, wording);
}

void paint_map(Canvas& canvas, const Box& room, const ThrowMap& values, const Wording& wording) {
  const double margin = 2.2 * canvas.sizes().foot;
  const double below = 1.9 * canvas.sizes().foot;
  const FieldPlan plan =
      plan_of({room.x + margin, room.y, room.width - margin, room.height - below});
  paint_grass(canvas, plan);
  paint_depths(canvas, plan, margin - 10);
  const std::array<double, 4> edges{0, intermediate_from, deep_from, plan.deep_end};
  const double third = plan.box.width / 3, largest = largest_share(values);
  for (const auto& row : grid_of(values))
    for (const ThrowCell& cell : row) {
      const auto depth = static_cast<std::size_t>(cell.depth);
      const double top = plan.y(edges.at(depth + 1));
      const Box box{plan.box.x + cell.lane * third, top, third, plan.y(edges.at(depth)) - top};
      canvas.grouped(place_of(cell, wording),
                     [&](Canvas& group) { paint_cell(group, box, cell, largest, wording); });
    }
  if (plan.box.width < 22 * canvas.sizes().foot) return;
  canvas.write_block({wording("throw_axis"), canvas.sizes().foot, Ink::quiet},
                     {plan.box.x, plan.box.bottom() + 8, plan.box.width, below}, 1);
}

BallChart chart_of(const ThrowMap& values, const Wording& wording) {
  BallChart chart;
  const double largest = largest_share(values);
  const Grid grid = grid_of(values);
  for (auto row = grid.rbegin(); row != grid.rend(); ++row)
    for (const ThrowCell& cell : *row)
      chart.blocks.push_back(
          {place_of(cell, wording),
           wording("throw_count",
                   {{"count", number_text(cell.throws, 0)}, {"share", percent_text(cell.share)}}),
           number_text(cell.throws, 0),
           {{cell.completion, "", percent_text(cell.completion.value),
             wording("usual", {{"value", percent_text(cell.usual)}}), cell.share / largest,
             ink_of_cell(cell), fill_of_cell(cell), cell.usual}},
           ""});
  chart.least = {0, 1};
  chart.tick_text = [](double tick, int) { return percent_text(tick); };
  chart.axis_note = wording("throw_chart_axis", {{"population", values.population}});
  return chart;
}

Telling telling_of(const ThrowMap& values, const Wording& wording) {
  std::vector<std::string> above, below;
  std::string lines;
  for (const auto& row : grid_of(values))
    for (const ThrowCell& cell : row) {
      const std::string place = place_of(cell, wording);
      lines += place + ": " + number_text(cell.throws, 0) + ", " +
               percent_text(cell.completion.value) + " (" +
               range_text(cell.completion, Unit::share, wording) + "), " +
               wording("usual", {{"value", percent_text(cell.usual)}}) + ".\n";
      if (cell.throws <= 0 || !cell.completion.clear_of(cell.usual)) continue;
      (cell.completion.low > cell.usual ? above : below).push_back(place);
    }
  const std::string player = isolated(values.player);
  const char* key = above.empty()   ? (below.empty() ? "throw_open" : "throw_below")
                    : below.empty() ? "throw_above"
                                    : "throw_both";
  const std::string ups = name_list(above, 2, wording), downs = name_list(below, 2, wording);
  return {wording("throw_kicker"),
          wording(key, {{"player", player}, {"above", ups}, {"below", downs}}),
          {wording("throw_deck", {{"population", values.population}})},
          wording("throw_note"),
          lines};
}

void paint(Canvas& canvas, Box box, const ThrowMap& values, const Wording& wording) {
  if (box.width > 1.6 * box.height && box.width > 45 * canvas.sizes().body) {
    const double field = field_width / (least_deep_end + behind_line) * box.height;
    const Box chart = box.take_right(box.width - field - 40, 56);
    paint_ball_chart(canvas, chart, chart_of(values, wording), wording);
  }
  paint_map(canvas, box, values, wording);
}

}  // namespace

Panel throw_map_panel(const ThrowMap& values, const Wording& wording) {
  return {telling_of(values, wording), [values, wording](Canvas& canvas, const Box& box) {
            paint(canvas, box, values, wording);
          }};
}

}  // namespace callfit

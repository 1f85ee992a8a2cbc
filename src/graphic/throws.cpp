#include <callfit/graphic/pictures.hpp>

#include <callfit/base/isolated.hpp>
#include "graphic/ball_chart.hpp"
#include "graphic/parts.hpp"
#include "report/phrases.hpp"

#include <callfit/chart/rate.hpp>
#include <callfit/report/number_text.hpp>
#include <callfit/stats/beta.hpp>

#include <algorithm>
#include <array>
#include <string>

namespace callfit {
namespace {

// Yards. A field is 160 feet wide; its middle lane lies between the hash marks; deep throws share
// the space up to 40.
constexpr double field_width = 160.0 / 3.0;
constexpr double feet = 1.0 / 3.0;
constexpr double behind_line = 4;
constexpr double least_deep_end = 38;  // deep throws get at least this far
constexpr double most_deep_end = 70;

// A zone's numbers: its completion's posterior is known exactly.
struct ThrowCell {
  std::size_t lane = 0;   // 0 left, 1 middle, 2 right
  std::size_t depth = 0;  // 0 short, 1 intermediate, 2 deep
  double throws = 0, share = 0, usual = 0;
  Number completion;
  Verdict better;  // yes: above the usual completion
};

ThrowCell cell_of(const ThrowZone& zone) {
  const RateEstimate& estimate = zone.completion;
  const Beta posterior = Beta::of_mean(estimate.mean, estimate.strength);
  const Interval ends = estimate.interval90();
  return {static_cast<std::size_t>(zone.lane),
          static_cast<std::size_t>(zone.depth) - static_cast<std::size_t>(Cell::short_throw),
          zone.throws,
          zone.share,
          zone.usual,
          {quantile(posterior, 0.5), ends.low, ends.high},
          {1 - cdf(posterior, zone.usual), 0,
           std::min(1.0, estimate.counts.effective_of / estimate.strength)}};
}

using Grid = std::array<std::array<std::optional<ThrowCell>, 3>, 3>;  // [depth][lane]

struct ThrowMap {
  std::string player, population;
  double hash_gap = 0;  // yards
  Grid grid;
  double largest = 1e-9;  // share of throws into one cell

  // Where lanes begin and end, yards from the left sideline.
  std::array<double, 4> lane_edges() const {
    const double side = (field_width - hash_gap) / 2;
    return {0, side, side + hash_gap, field_width};
  }
};

ThrowMap map_of(const About& about, const std::vector<ThrowZone>& zones, double hash_gap,
                const Wording& wording) {
  ThrowMap map{about.quarterback, wording("population"), hash_gap * feet, {}};
  for (const ThrowZone& zone : zones) {
    const ThrowCell cell = cell_of(zone);
    map.grid.at(cell.depth).at(cell.lane) = cell;
    map.largest = std::max(map.largest, cell.share);
  }
  return map;
}

// The cells that were thrown to, deep ones first.
std::vector<ThrowCell> seen_cells(const ThrowMap& map) {
  std::vector<ThrowCell> cells;
  for (auto row = map.grid.rbegin(); row != map.grid.rend(); ++row)
    for (const auto& cell : *row)
      if (cell && cell->throws > 0) cells.push_back(*cell);
  return cells;
}

std::string place_of(std::size_t depth, std::size_t lane, const Wording& wording) {
  static constexpr std::array depth_keys{"depth_short", "depth_intermediate", "depth_deep"};
  static constexpr std::array lane_keys{"lane_left", "lane_middle", "lane_right"};
  return wording("throw_place",
                 {{"depth", wording(depth_keys.at(depth))}, {"lane", wording(lane_keys.at(lane))}});
}

std::string count_of(const ThrowCell& cell, const Wording& wording) {
  return wording("throw_count", {{"count", fixed(cell.throws, 0)}, {"share", percent(cell.share)}});
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

void paint_grass(Canvas& canvas, const FieldPlan& plan, const std::array<double, 4>& lanes) {
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
    for (const double x : lanes) {
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
    canvas.write({fixed(depth, 0), size, Ink::quiet, true, Anchor::end},
                 {plan.box.x - 10, plan.y(depth) + 0.355 * size}, room);
}

void write_cell(Canvas& canvas, const Box& box, const ThrowCell& cell, const TextScale& sizes,
                const Wording& wording) {
  const double baseline = box.y + 0.86 * sizes.large;
  const double used = canvas.write({percent(cell.completion.centre), sizes.large, Ink::ink, true},
                                   {box.x, baseline}, box.width);
  const double gap = 0.35 * sizes.large;
  // A number is left out rather than cut.
  const auto put = [&](const Words& words, double x, double y) {
    if (canvas.width_of(words) <= box.right() - x) canvas.write(words, {x, y}, box.right() - x);
  };
  put({wording("usual", {{"value", percent(cell.usual)}}), sizes.small, Ink::ink},
      box.x + used + gap, baseline);
  put({count_of(cell, wording), sizes.small, Ink::quiet}, box.x,
      box.y + sizes.large + 1.05 * sizes.small);
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
            {ball_thickness(cell.share, largest, 1.7 * sizes.large),
             ink_of(cell.better, Ink::first, Ink::second), fill_of(cell.better), Ink::field});
  draw_stick(canvas, x(cell.usual), y - 0.8 * sizes.large, y + 0.8 * sizes.large);
  if (shrink > 0.4) write_cell(canvas, box, cell, sizes, wording);
}

void paint_empty(Canvas& canvas, const Box& box, const Wording& wording) {
  const double size = canvas.sizes().small;
  if (box.height > 1.5 * size)
    canvas.write_in({wording("throw_none"), size, Ink::quiet, false, Anchor::middle},
                    box.inset(10, 0));
}

void paint_map(Canvas& canvas, const Box& room, const ThrowMap& map, const Wording& wording) {
  const double margin = 2.2 * canvas.sizes().foot;
  const double below = 1.9 * canvas.sizes().foot;
  const FieldPlan plan =
      plan_of({room.x + margin, room.y, room.width - margin, room.height - below});
  const auto lanes = map.lane_edges();
  paint_grass(canvas, plan, lanes);
  paint_depths(canvas, plan, margin - 10);
  const std::array<double, 4> edges{0, intermediate_from, deep_from, plan.deep_end};
  for (std::size_t depth = 0; depth < 3; ++depth)
    for (std::size_t lane = 0; lane < 3; ++lane) {
      const double top = plan.y(edges.at(depth + 1));
      const Box box{plan.x(lanes.at(lane)), top,
                    plan.x(lanes.at(lane + 1)) - plan.x(lanes.at(lane)),
                    plan.y(edges.at(depth)) - top};
      const auto& cell = map.grid.at(depth).at(lane);
      canvas.grouped(place_of(depth, lane, wording), [&](Canvas& group) {
        if (cell && cell->throws > 0)
          paint_cell(group, box, *cell, map.largest, wording);
        else
          paint_empty(group, box, wording);
      });
    }
  if (plan.box.width < 22 * canvas.sizes().foot) return;
  canvas.write_block({wording("throw_axis"), canvas.sizes().foot, Ink::quiet},
                     {plan.box.x, plan.box.bottom() + 8, plan.box.width, below}, 1);
}

BallChart chart_of(const ThrowMap& map, const Wording& wording) {
  BallChart chart;
  for (const ThrowCell& cell : seen_cells(map))
    chart.blocks.push_back(
        {place_of(cell.depth, cell.lane, wording),
         count_of(cell, wording),
         fixed(cell.throws, 0),
         {{cell.completion, "", number_text(Unit::share, cell.completion),
           wording("usual", {{"value", percent(cell.usual)}}), cell.share / map.largest,
           ink_of(cell.better, Ink::first, Ink::second), fill_of(cell.better), cell.usual}},
         ""});
  chart.least = {0, 1};
  chart.tick_text = percent_tick;
  chart.axis_note = wording("throw_chart_axis", {{"population", map.population}});
  return chart;
}

std::string headline(const ThrowMap& map, const std::vector<ThrowCell>& cells,
                     const Wording& wording) {
  const auto surest =
      std::max_element(cells.begin(), cells.end(), [](const ThrowCell& a, const ThrowCell& b) {
        return a.better.of_side() < b.better.of_side();
      });
  if (surest == cells.end() || surest->better.lean() == Lean::open)
    return wording("throw_open", {{"player", isolated(map.player)}});
  return wording("throw_surest",
                 {{"place", capital(place_of(surest->depth, surest->lane, wording))},
                  {"player", isolated(map.player)},
                  {"better", better_words(surest->better)},
                  {"odds", odds_words(surest->better.odds)}});
}

std::vector<NameGroup> groups_of(std::vector<ThrowCell> cells, const Wording& wording) {
  std::stable_sort(cells.begin(), cells.end(), [](const ThrowCell& a, const ThrowCell& b) {
    return a.better.odds > b.better.odds;
  });
  std::vector<NameGroup> groups;
  for (const ThrowCell& cell : cells) {
    const std::string how = better_words(cell.better);
    if (groups.empty() || groups.back().how != how) groups.push_back({how, {}});
    groups.back().names.push_back(place_of(cell.depth, cell.lane, wording));
  }
  return groups;
}

Telling telling_of(const ThrowMap& map, const Wording& wording) {
  const auto cells = seen_cells(map);
  std::vector<std::string> deck{wording("throw_deck", {{"population", map.population}})};
  for (const std::string& group : group_sentences(groups_of(cells, wording), wording))
    deck.push_back(group);
  std::string lines;
  for (const ThrowCell& cell : cells)
    lines += place_of(cell.depth, cell.lane, wording) + ": " + count_of(cell, wording) + ", " +
             number_text(Unit::share, cell.completion) + ", " +
             wording("usual", {{"value", percent(cell.usual)}}) + ", " + better_words(cell.better) +
             ".\n";
  return {wording("throw_kicker"),
          headline(map, cells, wording),
          deck,
          {lean_note(wording), wording("throw_note")},
          lines};
}

void paint(Canvas& canvas, Box box, const ThrowMap& map, const Wording& wording) {
  if (box.width > 1.6 * box.height && box.width > 45 * canvas.sizes().body) {
    const double field = field_width / (least_deep_end + behind_line) * box.height;
    const Box chart = box.take_right(box.width - field - 40, 56);
    paint_ball_chart(canvas, chart, chart_of(map, wording), wording);
  }
  paint_map(canvas, box, map, wording);
}

}  // namespace

Panel throws_panel(const About& about, const std::vector<ThrowZone>& zones, double hash_gap,
                   const Wording& wording) {
  const ThrowMap map = map_of(about, zones, hash_gap, wording);
  return {telling_of(map, wording),
          [map, wording](Canvas& canvas, const Box& box) { paint(canvas, box, map, wording); }};
}

}  // namespace callfit

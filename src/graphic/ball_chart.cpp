#include "graphic/ball_chart.hpp"

#include <algorithm>
#include <callfit/base/isolated.hpp>

namespace callfit {
namespace {

constexpr double lesser = 0.84;          // size of asides and notes
constexpr double two_line_height = 2.5;  // in text sizes
constexpr double one_line_height = 1.45;
constexpr double gap = 22;  // pixels between columns

struct Strip {
  const BallBlock* block = nullptr;
  Box box;
  Ink ground = Ink::paper;
};

struct BallLayout {
  Box heads, labels, notes, plot, values, axis;
  LinearScale x;
  std::vector<double> ticks;
  double text;     // size of the first line of a block
  double fattest;  // pixels
  bool two_lines;
  std::vector<Strip> places;
};

double lines_of(const BallBlock& block) {
  return static_cast<double>(std::max<std::size_t>(block.lines.size(), 1));
}

double total_lines(const std::vector<BallBlock>& blocks) {
  double lines = 0;
  for (const BallBlock& block : blocks) lines += lines_of(block);
  return lines;
}

Range range_of(const BallChart& chart, const std::vector<BallBlock>& blocks) {
  Range range = chart.least;
  const auto hold = [&](double value) {
    range.low = std::min(range.low, value);
    range.high = std::max(range.high, value);
  };
  if (chart.stick) hold(*chart.stick);
  for (const BallBlock& block : blocks)
    for (const BallLine& line : block.lines) {
      hold(line.at.centre);
      hold(std::max(line.at.low, -chart.farthest));
      hold(std::min(line.at.high, chart.farthest));
      if (line.stick) hold(*line.stick);
      if (line.was) hold(*line.was);
    }
  if (chart.stick) {  // both sides keep room for their heads
    const double line = *chart.stick, low = range.low, high = range.high;
    if (!chart.below.text.empty()) range.low = std::min(low, line - 0.45 * (high - line));
    if (!chart.above.text.empty()) range.high = std::max(high, line + 0.45 * (line - low));
  }
  const double margin = 0.03 * std::max(range.high - range.low, 1e-9);
  return {range.low - margin, range.high + margin};
}

Words label_words(const BallBlock& block, double size) {
  return {isolated(block.label), size, Ink::ink, true};
}
Words note_words(const BallBlock& block, double size, bool two_lines) {
  return {two_lines ? block.note : block.short_note, lesser * size, Ink::quiet};
}
Words name_words(const BallLine& line, double size) {
  return {line.name, lesser * size, Ink::quiet};
}
Words value_words(const BallLine& line, double size) { return {line.value, size, Ink::ink, true}; }
Words aside_words(const BallLine& line, double size) {
  return {line.aside, lesser * size, Ink::quiet};
}

struct Widths {
  double label = 0, note = 0, name = 0, value = 0;
};

Widths widths_of(const Canvas& canvas, const std::vector<BallBlock>& blocks, double size,
                 bool two_lines) {
  Widths widths;
  for (const BallBlock& block : blocks) {
    widths.label = std::max(widths.label, canvas.width_of(label_words(block, size)));
    widths.note = std::max(widths.note, canvas.width_of(note_words(block, size, two_lines)));
    if (block.lines.empty())
      widths.value =
          std::max(widths.value, canvas.width_of({block.without_lines, lesser * size, Ink::quiet}));
    for (const BallLine& line : block.lines) {
      widths.name = std::max(widths.name, canvas.width_of(name_words(line, size)));
      widths.value = std::max(widths.value, canvas.width_of(value_words(line, size)) + 0.5 * size +
                                                canvas.width_of(aside_words(line, size)));
    }
  }
  return widths;
}

// Text of one-line rows grows smaller, down to a bound, where the columns would leave the plot
// less than `least_plot` of the width.
double fitting_text(const Canvas& canvas, const std::vector<BallBlock>& blocks, double text,
                    double whole) {
  constexpr double least_plot = 0.3;
  constexpr double smallest = 0.72;
  const Widths widths = widths_of(canvas, blocks, text, false);
  const double columns = widths.label + widths.note + widths.name + widths.value + 0.5 * text;
  const double room = (1 - least_plot) * whole - 2 * gap - 12;
  return text * std::clamp(room / std::max(columns, 1.0), smallest, 1.0);
}

// Cuts the columns off `box`; what is left is the plot.
void cut_columns(const Widths& widths, double size, Box& box, BallLayout& layout) {
  const double whole = box.width;
  if (layout.two_lines) {
    layout.labels =
        box.take_left(std::min(std::max(widths.label, widths.note) + 2, 0.38 * whole), gap);
    layout.values =
        box.take_right(std::min(std::max(widths.name, widths.value) + 2, 0.36 * whole), gap);
  } else {
    layout.labels = box.take_left(std::min(widths.label + 2, 0.28 * whole), 12);
    layout.notes = box.take_left(std::min(widths.note + 2, 0.18 * whole), gap);
    layout.values = box.take_right(
        std::min(widths.name + (widths.name > 0 ? 0.5 * size : 0) + widths.value + 2, 0.42 * whole),
        gap);
  }
}

// Rows below each other, every other one on a strip, as grass is mown.
std::vector<Strip> places_of(const std::vector<BallBlock>& blocks, Box box, double line_height) {
  std::vector<Strip> places;
  places.reserve(blocks.size());
  for (const BallBlock& block : blocks)
    places.push_back({&block, box.take_top(lines_of(block) * line_height),
                      places.size() % 2 == 0 ? Ink::strip : Ink::paper});
  return places;
}

BallLayout layout_of(const Canvas& canvas, const Box& whole, const BallChart& chart,
                     const std::vector<BallBlock>& blocks, double heads, double axis) {
  const TextScale& sizes = canvas.sizes();
  Box box = whole;
  const Box head_box = box.take_top(heads);
  Box axis_box = box.take_bottom(axis);
  const double lines = std::max(total_lines(blocks), 1.0);
  const double line_height = std::min(box.height / lines, 4.2 * sizes.body);
  box.height = line_height * lines;
  axis_box.y = box.bottom();
  const bool two_lines = line_height >= two_line_height * 0.78 * sizes.small;
  double text = std::min(line_height / (two_lines ? two_line_height : one_line_height), sizes.body);
  if (!two_lines) text = fitting_text(canvas, blocks, text, box.width);
  BallLayout layout{{},
                    {},
                    {},
                    {},
                    {},
                    axis_box,
                    LinearScale(0, 1, 0, 1),
                    {},
                    text,
                    std::min(0.72 * line_height, 64.0),
                    two_lines,
                    places_of(blocks, box, line_height)};
  cut_columns(widths_of(canvas, blocks, text, two_lines), text, box, layout);
  layout.plot = box;
  layout.heads = {box.x, head_box.y, box.width, head_box.height};
  const Range range = range_of(chart, blocks);
  layout.x = LinearScale(range.low, range.high, box.x, box.right());
  layout.ticks = canvas.fitting_ticks(layout.x, sizes.foot, 6, chart.tick_text);
  return layout;
}

void paint_label(Canvas& canvas, const Strip& place, const BallLayout& layout) {
  const double size = layout.text;
  const Box& box = place.box;
  if (!layout.two_lines) {
    canvas.write_in(label_words(*place.block, size),
                    {layout.labels.x, box.y, layout.labels.width, box.height});
    canvas.marked(place.block->note_id, 0, [&](Canvas& note) {
      note.write_in(note_words(*place.block, size, false),
                    {layout.notes.x, box.y, layout.notes.width, box.height});
    });
    return;
  }
  const bool alone = place.block->note.empty();
  const double baseline = box.middle_y() + (alone ? 0.355 : -0.12) * size;
  Words label = label_words(*place.block, size);
  const double natural = canvas.width_of(label);
  label.size *= std::clamp(layout.labels.width / std::max(natural, 1.0), 0.7, 1.0);
  canvas.write(label, {layout.labels.x, baseline}, layout.labels.width + 1);
  canvas.marked(place.block->note_id, 0, [&](Canvas& note) {
    note.write(note_words(*place.block, size, true), {layout.labels.x, baseline + 1.12 * size},
               layout.labels.width);
  });
}

void paint_value(Canvas& canvas, const Box& row, const BallLine& line, const BallLayout& layout) {
  const double size = layout.text;
  double x = layout.values.x;
  const double end = layout.values.right();
  double baseline = row.middle_y() + 0.355 * size;
  if (!line.name.empty()) {
    if (layout.two_lines) baseline = row.middle_y() - 0.12 * size;
    const double used = canvas.write(name_words(line, size), {x, baseline}, end - x);
    if (layout.two_lines)
      baseline += 1.12 * size;
    else
      x += used + 0.5 * size;
  }
  const double used = canvas.write(value_words(line, size), {x, baseline}, end - x);
  x += used + 0.5 * size;
  canvas.marked(line.aside_id, 0, [&](Canvas& aside) {
    aside.write(aside_words(line, size), {x, baseline}, end - x);
  });
}

// A dashed post where the estimate began, and the way from there.
void paint_was(Canvas& canvas, const Box& row, const BallLine& line, const BallLayout& layout) {
  if (!line.was) return;
  const double from = layout.x(*line.was), y = row.middle_y();
  const double half = 0.42 * row.height;
  canvas.dashed({from, y - half}, {from, y + half}, Ink::quiet, 3);
  canvas.line({from, y}, {layout.x(line.at.centre), y}, Ink::quiet, 2);
}

void paint_lines(Canvas& canvas, const Strip& place, const BallLayout& layout) {
  const auto& lines = place.block->lines;
  const auto parts = rows(place.box, std::max<std::size_t>(lines.size(), 1), 0);
  if (lines.empty())
    canvas.write_in({place.block->without_lines, lesser * layout.text, Ink::quiet},
                    {layout.values.x, place.box.y, layout.values.width, place.box.height});
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const BallLine& line = lines[i];
    Group clipped;
    clipped.id = line.id;
    clipped.unit = line.id.empty() ? 0 : layout.x(1) - layout.x(0);
    clipped.clip = Box{layout.plot.x, parts[i].y, layout.plot.width, parts[i].height};
    Canvas inner(clipped, canvas.style(), canvas.ruler(), canvas.sizes());
    paint_was(canvas, parts[i], line, layout);
    draw_ball(inner, layout.x, line.at, parts[i].middle_y(),
              {ball_thickness(line.weight, 1, layout.fattest), line.ink, line.fill, place.ground});
    canvas.add({std::move(clipped)});
    if (line.stick)
      draw_stick(canvas, layout.x(*line.stick), parts[i].y + 10, parts[i].bottom() - 4);
    paint_value(canvas, parts[i], line, layout);
  }
}

void paint_ground(Canvas& canvas, const BallLayout& layout) {
  for (const Strip& place : layout.places)
    if (place.ground == Ink::strip) canvas.fill(place.box.inset(-10, 0), canvas.colour(Ink::strip));
  for (const double tick : layout.ticks)
    canvas.line({layout.x(tick), layout.plot.y}, {layout.x(tick), layout.plot.bottom()}, Ink::rule,
                2);
}

void paint_heads(Canvas& canvas, const BallLayout& layout, const BallChart& chart) {
  if (!chart.stick) return;
  const Box& box = layout.heads;
  const double line = layout.x(*chart.stick), room = 20;
  double size = canvas.sizes().small;
  const double baseline = box.bottom() - 0.45 * size;
  draw_stick(canvas, line, box.bottom() - 0.8 * size, layout.plot.bottom());
  // Beside a narrow plot heads grow smaller; one still too long takes the place of the notes' head.
  Words below{chart.below.text, size, chart.below.ink, true, Anchor::end};
  const double shrink = (line - room - box.x) / std::max(canvas.width_of(below), 1.0);
  size *= std::clamp(shrink, 0.7, 1.0);
  below.size = size;
  const bool narrow = canvas.width_of(below) > line - room - box.x + 1;
  if (!layout.two_lines && !narrow)
    canvas.write({chart.short_note_head, canvas.sizes().foot, Ink::quiet},
                 {layout.notes.x, baseline}, layout.notes.width + gap / 2);
  canvas.write(below, {line - room, baseline}, line - room - (narrow ? layout.labels.x : box.x));
  canvas.write({chart.above.text, size, chart.above.ink, true}, {line + room, baseline},
               layout.values.right() - line - room);
}

void paint_axis(Canvas& canvas, Box box, const BallLayout& layout, const BallChart& chart,
                const std::string& note) {
  const double size = canvas.sizes().foot;
  for (const double tick : layout.ticks) {
    const double x = layout.x(tick);
    const std::string text = chart.tick_text(tick, decimals_of(layout.ticks));
    canvas.line({x, box.y}, {x, box.y + 8}, Ink::quiet, 2);
    canvas.write({text, size, Ink::quiet, false, Anchor::middle}, {x, box.y + 12 + 0.8 * size},
                 120);
  }
  box.take_top(18 + size);
  canvas.write_block({note, size, Ink::quiet}, box, 2);
}

// The blocks that find room at the smallest readable size.
std::vector<BallBlock> that_fit(const std::vector<BallBlock>& blocks, double height,
                                const TextScale& sizes) {
  const double least = one_line_height * 0.62 * sizes.body;
  std::vector<BallBlock> kept;
  double used = 0;
  for (const BallBlock& block : blocks) {
    used += lines_of(block) * least;
    if (used > height) break;
    kept.push_back(block);
  }
  return kept;
}

}  // namespace

double comfortable_line(const TextScale& sizes) { return 0.9 * two_line_height * sizes.body; }

void paint_ball_chart(Canvas& canvas, const Box& box, const BallChart& chart,
                      const Wording& wording) {
  const TextScale& sizes = canvas.sizes();
  const double heads = chart.stick ? 1.7 * sizes.small : 8;
  std::string note = chart.axis_note;
  const double axis = 18 + sizes.foot + canvas.block_height({note, sizes.foot}, box.width, 2);
  const auto kept = that_fit(chart.blocks, box.height - heads - axis, sizes);
  if (kept.empty()) return;
  if (const std::size_t out = chart.left_out + chart.blocks.size() - kept.size(); out > 0)
    note = wording("left_out", {{"count", std::to_string(out)}}) + " " + note;
  const BallLayout layout = layout_of(canvas, box, chart, kept, heads, axis);
  paint_ground(canvas, layout);
  for (const Strip& place : layout.places)
    canvas.grouped(place.block->label, [&](Canvas& group) {
      paint_label(group, place, layout);
      paint_lines(group, place, layout);
    });
  paint_heads(canvas, layout, chart);
  paint_axis(canvas, {box.x, layout.axis.y, box.width, layout.axis.height}, layout, chart, note);
}

}  // namespace callfit

#include "graphic/value_map.hpp"

#include <algorithm>
#include <callfit/base/isolated.hpp>
#include <numeric>
#include <string>

namespace callfit {

std::vector<int> steps_apart(const std::vector<Number>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  // What lies wholly below a value ends before it begins, so it comes earlier in this order.
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return values[a].high < values[b].high; });
  std::vector<int> steps(values.size(), 0);
  for (std::size_t i = 0; i < order.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      if (values[order[j]].high < values[order[i]].low)
        steps[order[i]] = std::max(steps[order[i]], steps[order[j]] + 1);
  return steps;
}

namespace {

std::vector<Number> all_values(const ValueMap& map) {
  std::vector<Number> all;
  for (const auto& row : map.cells)
    for (const MapCell& cell : row) all.push_back(cell.value);
  return all;
}

// Every step is equally strong, so that a map of small differences stays pale; of many steps, each
// is less.
Colour tint_of(const Canvas& canvas, int step, int most) {
  constexpr double lightest = 0.06, darkest = 0.58;
  constexpr int strong_steps = 4;
  return mix(canvas.colour(Ink::paper), canvas.colour(Ink::first),
             lightest + (darkest - lightest) * step / std::max(most, strong_steps));
}

// The interval as a line under the numbers, on one scale for the whole map.
void paint_interval(Canvas& canvas, const Box& box, double y, const Range& range,
                    const Number& value, Colour ink) {
  const LinearScale x(range.low, range.high, box.x + 16, box.right() - 16);
  const Stroke line{ink, 4, {}};
  canvas.add({LineShape{{x(value.low), y}, {x(value.high), y}, {std::nullopt, line, Role::mark}}});
  canvas.add({CircleShape{{x(value.centre), y}, 6, {ink, std::nullopt, Role::mark}}});
}

Stroke edge_of(const Canvas& canvas, CellFrame frame) {
  if (frame == CellFrame::fine) return {canvas.colour(Ink::quiet), 1.5, {}};
  Stroke edge{canvas.colour(Ink::ink), 6, {}};
  if (frame == CellFrame::dashed) edge.dash = {14, 9};
  return edge;
}

double text_size(const Canvas& canvas, const Box& cell) {
  return std::min({canvas.sizes().large, 0.34 * cell.height, 0.3 * cell.width});
}

bool has_aside_room(const Canvas& canvas, const Box& cell) {
  return cell.height > 3.8 * text_size(canvas, cell);
}

void paint_cell(Canvas& canvas, const Box& box, const MapCell& cell, Colour fill,
                const Range& range) {
  const Colour ink = readable_on(fill, canvas.colour(Ink::ink), canvas.colour(Ink::paper));
  const double inset = cell.frame == CellFrame::fine ? 3 : 6;
  const Box inside = box.inset(inset, inset);
  canvas.add({RectShape{inside, 0, {fill, edge_of(canvas, cell.frame), Role::mark}}});
  const double size = text_size(canvas, box);
  const bool roomy = box.height > 3.4 * size;
  const bool with_aside = !cell.aside.empty() && has_aside_room(canvas, box);
  const double middle = box.middle_y() - (roomy ? 0.5 : 0) * size - (with_aside ? 0.45 : 0) * size;
  // Smaller where it must be, else not at all: never a number cut short.
  const auto put = [&](const std::string& text, double wanted, bool bold, double baseline) {
    constexpr double smallest = 0.66;
    const double natural = canvas.width_of({text, wanted, Ink::ink, bold});
    const double share = std::min(1.0, (inside.width - 14) / std::max(natural, 1.0));
    if (share < smallest) return;
    const Font font = canvas.font_of({text, share * wanted, Ink::ink, bold});
    canvas.add({TextShape{{box.middle_x(), baseline}, text, font, ink, Anchor::middle}});
  };
  put(cell.text, size, true, middle + 0.05 * size);
  put(cell.range, 0.6 * size, false, middle + 1.0 * size);
  if (roomy) paint_interval(canvas, inside, middle + 1.6 * size, range, cell.value, ink);
  if (with_aside) put(cell.aside, 0.6 * size, false, middle + 2.55 * size);
}

// How the map lies on the page: turned by a quarter where its columns would be too narrow.
struct Sheet {
  std::vector<std::string> left, top;
  std::string left_title, top_title;
  bool turned = false;

  std::size_t row(std::size_t r, std::size_t c) const { return turned ? c : r; }
  std::size_t column(std::size_t r, std::size_t c) const { return turned ? r : c; }
};

Sheet sheet_of(const Canvas& canvas, const Box& box, const ValueMap& map) {
  const auto count = static_cast<double>(map.columns.size());
  const bool turned =
      map.columns.size() > map.rows.size() && 0.75 * box.width / count < 8 * canvas.sizes().small;
  if (turned) return {map.columns, map.rows, map.column_title, map.row_title, true};
  return {map.rows, map.columns, map.row_title, map.column_title, false};
}

struct MapLayout {
  Box title, heads, labels, cells;
};

constexpr std::size_t title_lines = 3;

Words title_words(const Canvas& canvas, const std::string& text, Anchor anchor) {
  return {text, canvas.sizes().small, Ink::quiet, false, anchor};
}

MapLayout layout_of(const Canvas& canvas, Box box, const Sheet& sheet) {
  const TextScale& sizes = canvas.sizes();
  double label = 0;
  for (const std::string& text : sheet.left)
    label = std::max(label, canvas.width_of({isolated(text), sizes.body, Ink::ink, true}));
  if (!sheet.left_title.empty()) label = std::max(label, 0.2 * box.width);
  box.take_bottom(2.8 * sizes.foot);
  const double width = std::min(label + 4, 0.3 * box.width);
  const double left_title =
      canvas.block_height(title_words(canvas, sheet.left_title, Anchor::end), width, title_lines);
  const double top_title = sheet.top_title.empty() ? 0 : canvas.line_height(sizes.small);
  Box head = box.take_top(std::max(2.75 * sizes.small, left_title - top_title) + top_title, 6);
  const Box labels = box.take_left(width, 16);
  box.height = std::min(box.height, static_cast<double>(sheet.left.size()) * 7.5 * sizes.body);
  head = {box.x, head.y, box.width, head.height};
  return {head.take_top(top_title), head, labels, box};
}

void paint_heads(Canvas& canvas, const MapLayout& layout, const std::vector<Box>& across,
                 const Sheet& sheet) {
  for (std::size_t c = 0; c < across.size(); ++c) {
    const Words head{isolated(sheet.top[c]), canvas.sizes().small, Ink::ink, true, Anchor::middle};
    const double width = across[c].width - 12;
    const double used = canvas.block_height(head, width, 2);
    canvas.write_block(head, {across[c].x + 6, layout.heads.bottom() - used, width, used}, 2);
  }
}

void paint_titles(Canvas& canvas, const MapLayout& layout, const Sheet& sheet) {
  if (!sheet.top_title.empty())
    canvas.write_block(title_words(canvas, sheet.top_title, Anchor::middle), layout.title, 1);
  if (sheet.left_title.empty()) return;
  const Words title = title_words(canvas, sheet.left_title, Anchor::end);
  const double used = canvas.block_height(title, layout.labels.width, title_lines);
  canvas.write_block(title,
                     {layout.labels.x, layout.heads.bottom() - used, layout.labels.width, used},
                     title_lines);
}

void paint_row_label(Canvas& canvas, const MapLayout& layout, const Box& row,
                     const std::string& text) {
  const TextScale& sizes = canvas.sizes();
  const double size = std::min(sizes.body, 0.7 * row.height);
  const Words label{isolated(text), size, Ink::ink, true, Anchor::end};
  const std::size_t lines = row.height > 3 * sizes.body ? 2 : 1;
  const double used = canvas.block_height(label, layout.labels.width, lines);
  canvas.write_block(label, {layout.labels.x, row.middle_y() - used / 2, layout.labels.width, used},
                     lines);
}

}  // namespace

void paint_value_map(Canvas& canvas, const Box& box, const ValueMap& map) {
  if (map.cells.empty() || map.columns.empty()) return;
  const TextScale& sizes = canvas.sizes();
  const Sheet sheet = sheet_of(canvas, box, map);
  const MapLayout layout = layout_of(canvas, box, sheet);
  const auto across = columns(layout.cells, sheet.top.size(), 0);
  const auto down = rows(layout.cells, sheet.left.size(), 0);
  const auto values = all_values(map);
  const auto steps = steps_apart(values);
  const int most = *std::max_element(steps.begin(), steps.end());
  const Range range = hull(values, values.front().centre);
  paint_titles(canvas, layout, sheet);
  paint_heads(canvas, layout, across, sheet);
  for (std::size_t r = 0; r < down.size(); ++r) {
    paint_row_label(canvas, layout, down[r], sheet.left[r]);
    for (std::size_t c = 0; c < across.size(); ++c) {
      const std::size_t row = sheet.row(r, c), column = sheet.column(r, c);
      paint_cell(canvas, {across[c].x, down[r].y, across[c].width, down[r].height},
                 map.cells[row][column],
                 tint_of(canvas, steps[row * map.columns.size() + column], most), range);
    }
  }
  std::string note = map.axis_note;
  const Box cell{0, 0, across.front().width, down.front().height};
  if (!map.aside_note.empty() && has_aside_room(canvas, cell)) note += " " + map.aside_note;
  canvas.write_block({note, sizes.foot, Ink::quiet},
                     {box.x, layout.cells.bottom() + 10, box.width, 2.6 * sizes.foot}, 2);
}

}  // namespace callfit

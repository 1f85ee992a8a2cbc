#include <callfit/graphic/comparison_map.hpp>

#include "graphic/parts.hpp"

#include <algorithm>
#include <string>

namespace callfit {
namespace {

const Reading& best_of(const std::vector<Reading>& row, bool more_is_better) {
  const auto less = [](const Reading& a, const Reading& b) { return a.value < b.value; };
  return more_is_better ? *std::max_element(row.begin(), row.end(), less)
                        : *std::min_element(row.begin(), row.end(), less);
}

// Whether a cell may be the best of its row: its interval meets the best one's.
bool may_be_best(const Reading& cell, const std::vector<Reading>& row, bool more_is_better) {
  const Reading& best = best_of(row, more_is_better);
  return more_is_better ? cell.high >= best.low : cell.low <= best.high;
}

// How far a value lies on the way from the worst to the best of the map, 0 to 1.
double standing(const ComparisonMap& values, double value) {
  double low = value, high = value;
  for (const auto& row : values.cells)
    for (const Reading& cell : row) {
      low = std::min(low, cell.value);
      high = std::max(high, cell.value);
    }
  const double share = high > low ? (value - low) / (high - low) : 0.5;
  return values.more_is_better ? share : 1 - share;
}

Range range_of(const ComparisonMap& values) {
  std::vector<Reading> all;
  for (const auto& row : values.cells) all.insert(all.end(), row.begin(), row.end());
  return all.empty() ? Range{0, 1} : hull(all, all.front().value);
}

// The interval as a line under the numbers, on one scale for the whole map.
void paint_interval(Canvas& canvas, const Box& box, double y, const Range& range,
                    const Reading& cell, Colour ink) {
  const LinearScale x(range.low, range.high, box.x + 16, box.right() - 16);
  const Stroke line{ink, 4, {}};
  canvas.add({LineShape{{x(cell.low), y}, {x(cell.high), y}, {std::nullopt, line, Role::mark}}});
  canvas.add({CircleShape{{x(cell.value), y}, 8, {ink, std::nullopt, Role::mark}}});
}

void paint_cell(Canvas& canvas, const Box& box, const ComparisonMap& values, const Reading& cell,
                bool framed, const Wording& wording) {
  const TextScale& sizes = canvas.sizes();
  const Colour paper = canvas.colour(Ink::paper);
  const Colour fill =
      mix(paper, canvas.colour(Ink::first), 0.08 + 0.5 * standing(values, cell.value));
  const Colour ink = readable_on(fill, canvas.colour(Ink::ink), paper);
  const Stroke frame{canvas.colour(framed ? Ink::ink : Ink::quiet), framed ? 6.0 : 1.5, {}};
  const Box inside = box.inset(framed ? 6 : 3, framed ? 6 : 3);
  canvas.add({RectShape{inside, 0, {fill, frame, Role::mark}}});
  const double size = std::min({sizes.large, 0.34 * box.height, 0.3 * box.width});
  const bool roomy = box.height > 3.4 * size;
  const double middle = box.middle_y() - (roomy ? 0.5 * size : 0);
  const auto put = [&](const std::string& text, double text_size, bool bold, double baseline) {
    const Font font = canvas.font_of({text, text_size, Ink::ink, bold});
    const std::string fitted = canvas.ruler().shorten(text, font, inside.width - 10);
    canvas.add({TextShape{{box.middle_x(), baseline}, fitted, font, ink, Anchor::middle}});
  };
  put(number_text(cell.value, values.decimals), size, true, middle + 0.05 * size);
  put(wording("range", {{"low", number_text(cell.low, values.decimals)},
                        {"high", number_text(cell.high, values.decimals)}}),
      0.6 * size, false, middle + 1.0 * size);
  if (roomy) paint_interval(canvas, inside, middle + 1.6 * size, range_of(values), cell, ink);
}

// How the map lies on the page: turned by a quarter where its columns would be too narrow.
struct Sheet {
  std::vector<std::string> left, top;
  bool turned = false;
  const ComparisonMap* values = nullptr;

  std::size_t row(std::size_t r, std::size_t c) const { return turned ? c : r; }
  std::size_t column(std::size_t r, std::size_t c) const { return turned ? r : c; }
};

Sheet sheet_of(const Canvas& canvas, const Box& box, const ComparisonMap& values) {
  const auto count = static_cast<double>(values.column_labels.size());
  const bool turned = values.column_labels.size() > values.row_labels.size() &&
                      0.75 * box.width / count < 8 * canvas.sizes().small;
  if (turned) return {values.column_labels, values.row_labels, true, &values};
  return {values.row_labels, values.column_labels, false, &values};
}

struct Layout {
  Box heads, labels, cells;
};

Layout layout_of(const Canvas& canvas, Box box, const Sheet& sheet) {
  const TextScale& sizes = canvas.sizes();
  double label = 0;
  for (const std::string& text : sheet.left)
    label = std::max(label, canvas.width_of({isolated(text), sizes.body, Ink::ink, true}));
  box.take_bottom(2.8 * sizes.foot);
  const Box head = box.take_top(2.75 * sizes.small, 6);
  const Box labels = box.take_left(std::min(label + 4, 0.3 * box.width), 16);
  box.height = std::min(box.height, static_cast<double>(sheet.left.size()) * 7.5 * sizes.body);
  return {{box.x, head.y, box.width, head.height}, labels, box};
}

void paint_heads(Canvas& canvas, const Layout& layout, const std::vector<Box>& across,
                 const Sheet& sheet) {
  for (std::size_t c = 0; c < across.size(); ++c) {
    const Words head{isolated(sheet.top[c]), canvas.sizes().small, Ink::ink, true, Anchor::middle};
    const double width = across[c].width - 12;
    const double used = canvas.block_height(head, width, 2);
    canvas.write_block(head, {across[c].x + 6, layout.heads.bottom() - used, width, used}, 2);
  }
}

void paint(Canvas& canvas, const Box& box, const ComparisonMap& values, const Wording& wording) {
  if (values.cells.empty() || values.column_labels.empty()) return;
  const TextScale& sizes = canvas.sizes();
  const Sheet sheet = sheet_of(canvas, box, values);
  const Layout layout = layout_of(canvas, box, sheet);
  const auto across = columns(layout.cells, sheet.top.size(), 0);
  const auto down = rows(layout.cells, sheet.left.size(), 0);
  paint_heads(canvas, layout, across, sheet);
  for (std::size_t r = 0; r < down.size(); ++r) {
    const double size = std::min(sizes.body, 0.7 * down[r].height);
    const Words label{isolated(sheet.left[r]), size, Ink::ink, true, Anchor::end};
    const std::size_t lines = down[r].height > 3 * sizes.body ? 2 : 1;
    const double used = canvas.block_height(label, layout.labels.width, lines);
    canvas.write_block(
        label, {layout.labels.x, down[r].middle_y() - used / 2, layout.labels.width, used}, lines);
    for (std::size_t c = 0; c < across.size(); ++c) {
      const auto& row = values.cells[sheet.row(r, c)];
      const Reading& cell = row[sheet.column(r, c)];
      paint_cell(canvas, {across[c].x, down[r].y, across[c].width, down[r].height}, values, cell,
                 may_be_best(cell, row, values.more_is_better), wording);
    }
  }
  canvas.write_block({wording("map_axis", {{"what", values.what}}), sizes.foot, Ink::quiet},
                     {box.x, layout.cells.bottom() + 10, box.width, 2.6 * sizes.foot}, 2);
}

Telling telling_of(const ComparisonMap& values, const Wording& wording) {
  std::size_t settled = 0;
  std::string lines;
  for (std::size_t r = 0; r < values.cells.size(); ++r) {
    const auto& row = values.cells[r];
    const auto candidates = std::count_if(row.begin(), row.end(), [&](const Reading& cell) {
      return may_be_best(cell, row, values.more_is_better);
    });
    if (candidates == 1 && row.size() > 1) ++settled;
    for (std::size_t c = 0; c < row.size(); ++c)
      lines += isolated(values.row_labels[r]) + ", " + isolated(values.column_labels[c]) + ": " +
               number_text(row[c].value, values.decimals) + " (" +
               wording("range", {{"low", number_text(row[c].low, values.decimals)},
                                 {"high", number_text(row[c].high, values.decimals)}}) +
               ").\n";
  }
  const Wording::Values counts = {{"settled", std::to_string(settled)},
                                  {"rows", std::to_string(values.cells.size())},
                                  {"row", values.row_kind},
                                  {"column", values.column_kind},
                                  {"what", values.what}};
  const char* key = settled == 0                     ? "map_open"
                    : settled == values.cells.size() ? "map_all"
                                                     : "map_some";
  return {wording("map_kicker", counts),
          wording(key, counts),
          {wording("map_deck", counts)},
          wording("map_note"),
          lines};
}

}  // namespace

Panel comparison_panel(const ComparisonMap& values, const Wording& wording) {
  return {telling_of(values, wording), [values, wording](Canvas& canvas, const Box& box) {
            paint(canvas, box, values, wording);
          }};
}

}  // namespace callfit

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
  const double value_size = std::min({sizes.large, 0.34 * box.height, 0.3 * box.width});
  const double range_size = 0.6 * value_size;
  const auto put = [&](const std::string& text, double size, bool bold, double baseline) {
    const Words words{text, size, Ink::ink, bold, Anchor::middle};
    const Font font = canvas.font_of(words);
    const std::string fitted = canvas.ruler().shorten(text, font, inside.width - 10);
    canvas.add({TextShape{{box.middle_x(), baseline}, fitted, font, ink, Anchor::middle}});
  };
  put(number_text(cell.value, values.decimals), value_size, true,
      box.middle_y() + 0.05 * value_size);
  put(wording("range", {{"low", number_text(cell.low, values.decimals)},
                        {"high", number_text(cell.high, values.decimals)}}),
      range_size, false, box.middle_y() + 1.0 * value_size);
}

struct Layout {
  Box heads, labels, cells;
};

Layout layout_of(const Canvas& canvas, Box box, const ComparisonMap& values) {
  const TextScale& sizes = canvas.sizes();
  double label = 0;
  for (const std::string& text : values.row_labels)
    label = std::max(label, canvas.width_of({text, sizes.body, Ink::ink, true}));
  box.take_bottom(2.8 * sizes.foot);
  const Box head = box.take_top(2.75 * sizes.body, 6);
  const Box labels = box.take_left(std::min(label + 4, 0.28 * box.width), 16);
  return {{box.x, head.y, box.width, head.height}, labels, box};
}

void paint(Canvas& canvas, const Box& box, const ComparisonMap& values, const Wording& wording) {
  if (values.cells.empty() || values.column_labels.empty()) return;
  const TextScale& sizes = canvas.sizes();
  Layout layout = layout_of(canvas, box, values);
  const auto n = static_cast<double>(values.cells.size());
  layout.cells.height = std::min(layout.cells.height, n * 5.5 * sizes.body);
  const auto across = columns(layout.cells, values.column_labels.size(), 0);
  const auto down = rows(layout.cells, values.cells.size(), 0);
  for (std::size_t c = 0; c < across.size(); ++c) {
    const Words head{isolated(values.column_labels[c]), sizes.small, Ink::ink, true,
                     Anchor::middle};
    const double used = canvas.block_height(head, across[c].width - 12, 2);
    canvas.write_block(
        head, {across[c].x + 6, layout.heads.bottom() - used, across[c].width - 12, used}, 2);
  }
  for (std::size_t r = 0; r < down.size(); ++r) {
    canvas.write_in({isolated(values.row_labels[r]), sizes.body, Ink::ink, true, Anchor::end},
                    {layout.labels.x, down[r].y, layout.labels.width, down[r].height});
    for (std::size_t c = 0; c < across.size(); ++c) {
      const Reading& cell = values.cells[r][c];
      paint_cell(canvas, {across[c].x, down[r].y, across[c].width, down[r].height}, values, cell,
                 may_be_best(cell, values.cells[r], values.more_is_better), wording);
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

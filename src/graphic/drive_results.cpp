#include <callfit/graphic/drive_results.hpp>

#include "graphic/parts.hpp"

#include <algorithm>
#include <string>

namespace callfit {
namespace {

// A bar from `root` that is sure up to the low end and tapers to the high end.
void tapered_bar(Canvas& canvas, const LinearScale& x, const Reading& share, const Box& row,
                 Ink ink) {
  const double root = x(0), low = x(share.low), high = x(share.high), y = row.middle_y();
  const double h = 0.36 * row.height, bend = low + 0.5 * (high - low);
  canvas.path({{'M', {root, y - h}},
               {'L', {low, y - h}},
               {'C', {bend, y - h, bend, y - 0.1 * h, high, y}},
               {'C', {bend, y + 0.1 * h, bend, y + h, low, y + h}},
               {'L', {root, y + h}},
               {'Z', {}}},
              {canvas.colour(ink), Stroke{canvas.colour(ink), 2, {}}, Role::mark});
  const double at = x(share.value), reach = std::max(0.35 * h, 3.0);
  const Stroke lace{canvas.colour(Ink::paper), 3, {}};
  canvas.add({LineShape{{at, y - reach}, {at, y + reach}, {std::nullopt, lace, Role::decor}}});
}

struct Sides {
  Box left, labels, right;
  LinearScale first, second;
};

Sides sides_of(const Canvas& canvas, const Box& box, const DriveResults& values) {
  const TextScale& sizes = canvas.sizes();
  double label = 0, largest = 0.05;
  for (const ResultShare& result : values.results) {
    label = std::max(label, canvas.width_of({result.label, sizes.body, Ink::ink, true}));
    largest = std::max({largest, result.first.high, result.second.high});
  }
  label = std::min(label + 40, 0.34 * box.width);
  const double room = canvas.width_of({"100%", sizes.body, Ink::ink, true}) + 20;
  const double side = (box.width - label) / 2;
  const Box left{box.x, box.y, side, box.height}, labels{box.x + side, box.y, label, box.height},
      right{labels.right(), box.y, side, box.height};
  return {left, labels, right, LinearScale(0, largest, left.right(), left.x + room),
          LinearScale(0, largest, right.x, right.right() - room)};
}

void paint_result(Canvas& canvas, const Box& row, const ResultShare& result, const Sides& sides) {
  const double size = std::min(canvas.sizes().body, 0.6 * row.height);
  tapered_bar(canvas, sides.first, result.first, row, Ink::first);
  tapered_bar(canvas, sides.second, result.second, row, Ink::second);
  canvas.write_in({result.label, size, Ink::ink, true, Anchor::middle},
                  {sides.labels.x + 10, row.y, sides.labels.width - 20, row.height});
  const double left = sides.first(result.first.high) - 10;
  canvas.write_in({percent_text(result.first.value), size, Ink::ink, true, Anchor::end},
                  {sides.left.x, row.y, left - sides.left.x, row.height});
  const double right = sides.second(result.second.high) + 10;
  canvas.write_in({percent_text(result.second.value), size, Ink::ink, true},
                  {right, row.y, sides.right.right() - right, row.height});
}

void paint_name(Canvas& canvas, const Box& box, const std::string& name, const Reading& points,
                Ink ink, Anchor anchor, const Wording& wording) {
  const TextScale& sizes = canvas.sizes();
  canvas.write_in({isolated(name), sizes.large, ink, true, anchor},
                  {box.x, box.y, box.width, 1.3 * sizes.large});
  const std::string text = wording(
      "results_points", {{"points", number_text(points.value, 2)},
                         {"range", wording("range", {{"low", number_text(points.low, 2)},
                                                     {"high", number_text(points.high, 2)}})}});
  canvas.write_in({text, sizes.small, Ink::ink, false, anchor},
                  {box.x, box.y + 1.3 * sizes.large, box.width, 1.4 * sizes.small});
}

// The difference as a ball: towards the side of the better quarterback.
void paint_difference(Canvas& canvas, const Box& box, const DriveResults& values,
                      const Wording& wording) {
  const TextScale& sizes = canvas.sizes();
  const Reading& d = values.difference;
  const double reach = 1.15 * std::max({std::abs(d.low), std::abs(d.high), 0.1});
  const LinearScale x(-reach, reach, box.right(), box.x);
  const double y = box.y + 34;
  const bool clear = d.clear_of(0);
  const Ink ink = !clear ? Ink::ink : d.value > 0 ? Ink::first : Ink::second;
  canvas.line({box.x, y}, {box.right(), y}, Ink::quiet, 2);
  draw_ball(canvas, x, d, y, {30, ink, fill_of(d, 0)});
  draw_stick(canvas, x(0), y - 28, y + 20);
  const std::string text = wording(clear ? "results_difference" : "results_close",
                                   {{"range", range_text(d, Unit::points, wording)}});
  canvas.write_in({text, sizes.small, Ink::ink, true, Anchor::middle},
                  {box.x, y + 24, box.width, 1.4 * sizes.small});
}

void paint(Canvas& canvas, Box box, const DriveResults& values, const Wording& wording) {
  const TextScale& sizes = canvas.sizes();
  const auto names = columns(box.take_top(1.3 * sizes.large + 1.5 * sizes.small, 14), 2, 60);
  paint_name(canvas, names[0], values.first, values.points_first, Ink::first, Anchor::start,
             wording);
  paint_name(canvas, names[1], values.second, values.points_second, Ink::second, Anchor::end,
             wording);
  const auto all = static_cast<double>(values.results.size());
  const double band_height = 66 + 1.4 * sizes.small, note_height = 1.5 * sizes.foot;
  // In a small panel the results come first: the headline tells the difference as well.
  if (box.height > band_height + 16 + note_height + all * 1.5 * sizes.foot) {
    const Box band = box.take_top(band_height, 16);
    paint_difference(canvas, band.inset(0.14 * band.width, 0), values, wording);
  }
  const Box note = box.take_bottom(note_height);
  const auto most = static_cast<std::size_t>(box.height / (1.1 * sizes.foot));
  const std::size_t count = std::min(values.results.size(), most);
  if (count == 0) return;
  const Sides sides = sides_of(canvas, box, values);
  const double height = std::min(box.height / static_cast<double>(count), 3.4 * sizes.body);
  bool striped = true;
  for (std::size_t i = 0; i < count; ++i) {
    const ResultShare& result = values.results[i];
    const Box row = box.take_top(height);
    if (striped) canvas.fill(row.inset(-10, 0), canvas.colour(Ink::strip));
    canvas.grouped(result.label, [&](Canvas& group) { paint_result(group, row, result, sides); });
    striped = !striped;
  }
  std::string text = wording("results_axis");
  if (count < values.results.size())
    text = wording("left_out", {{"count", std::to_string(values.results.size() - count)}}) + " " +
           text;
  canvas.write_in({text, sizes.foot, Ink::quiet},
                  {note.x, std::min(box.y + 6, note.y), note.width, note.height});
}

Telling telling_of(const DriveResults& values, const Wording& wording) {
  const std::string first = isolated(values.first), second = isolated(values.second);
  const Reading& d = values.difference;
  const char* key = d.low > 0 ? "results_first" : d.high < 0 ? "results_second" : "results_open";
  std::string lines;
  for (const ResultShare& result : values.results)
    lines += result.label + ": " + percent_text(result.first.value) + " (" +
             range_text(result.first, Unit::share, wording) + ") / " +
             percent_text(result.second.value) + " (" +
             range_text(result.second, Unit::share, wording) + ").\n";
  const Wording::Values names = {
      {"first", first}, {"second", second}, {"scheme", isolated(values.scheme)}};
  return {wording("results_kicker"),
          wording(key, names),
          {wording("results_deck", names)},
          wording("results_note"),
          lines};
}

}  // namespace

Panel drive_results_panel(const DriveResults& values, const Wording& wording) {
  return {telling_of(values, wording), [values, wording](Canvas& canvas, const Box& box) {
            paint(canvas, box, values, wording);
          }};
}

}  // namespace callfit

#include <callfit/graphic/pictures.hpp>

#include <callfit/base/isolated.hpp>
#include "graphic/parts.hpp"

#include <callfit/report/number_text.hpp>

#include <algorithm>
#include <string>

namespace callfit {
namespace {

struct Results {
  DrivesAnswer first;
  DrivesAgainst against;
};

struct Sides {
  Box left, labels, right;
  LinearScale first, second;
};

// A result's share of drives under both.
struct ResultRow {
  std::string label;
  Number first, second;
};

std::vector<ResultRow> rows_of(const DrivesAnswer& first, const DrivesAnswer& second) {
  std::vector<ResultRow> rows;
  for (std::size_t i = 0; i < first.results.size(); ++i)
    rows.push_back({first.results[i].label, first.results[i].number, second.results.at(i).number});
  return rows;
}

// A bar from `root` that is sure up to the low end and tapers to the high end.
void tapered_bar(Canvas& canvas, const LinearScale& x, const Number& share, const Box& row,
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
  const double at = x(share.centre), reach = std::max(0.35 * h, 3.0);
  const Stroke lace{canvas.colour(Ink::paper), 3, {}};
  canvas.add({LineShape{{at, y - reach}, {at, y + reach}, {std::nullopt, lace, Role::decor}}});
}

Sides sides_of(const Canvas& canvas, const Box& box, const std::vector<ResultRow>& results) {
  const TextScale& sizes = canvas.sizes();
  double label = 0, largest = 0.05;
  for (const ResultRow& result : results) {
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

void paint_result(Canvas& canvas, const Box& row, const ResultRow& result, const Sides& sides) {
  const double size = std::min(canvas.sizes().body, 0.6 * row.height);
  tapered_bar(canvas, sides.first, result.first, row, Ink::first);
  tapered_bar(canvas, sides.second, result.second, row, Ink::second);
  canvas.write_in({result.label, size, Ink::ink, true, Anchor::middle},
                  {sides.labels.x + 10, row.y, sides.labels.width - 20, row.height});
  const double left = sides.first(result.first.high) - 10;
  canvas.write_in({percent(result.first.centre), size, Ink::ink, true, Anchor::end},
                  {sides.left.x, row.y, left - sides.left.x, row.height});
  const double right = sides.second(result.second.high) + 10;
  canvas.write_in({percent(result.second.centre), size, Ink::ink, true},
                  {right, row.y, sides.right.right() - right, row.height});
}

// Two lines where one would be cut.
constexpr std::size_t number_lines = 2;

double numbers_height(const Canvas& canvas, const Words& words, double width) {
  return canvas.block_height(canvas.fitted(words, width, 1), width, number_lines);
}

void write_numbers(Canvas& canvas, const Words& words, const Box& box) {
  canvas.write_block(canvas.fitted(words, box.width, 1), box, number_lines);
}

Words points_words(const Canvas& canvas, const DrivesAnswer& drives, Anchor anchor,
                   const Wording& wording) {
  return {wording("points_a_drive", {{"points", number_text(Unit::points, drives.points)}}),
          canvas.sizes().small, Ink::ink, false, anchor};
}

void paint_name(Canvas& canvas, Box box, const DrivesAnswer& drives, Ink ink, Anchor anchor,
                const Wording& wording) {
  const TextScale& sizes = canvas.sizes();
  canvas.write_in({isolated(drives.about.quarterback), sizes.large, ink, true, anchor},
                  box.take_top(1.3 * sizes.large));
  write_numbers(canvas, points_words(canvas, drives, anchor, wording), box);
}

void paint_names(Canvas& canvas, Box& box, const Results& values, const Wording& wording) {
  constexpr double gap = 30;
  const double width = (box.width - gap) / 2;
  const auto height = [&](const DrivesAnswer& drives) {
    return numbers_height(canvas, points_words(canvas, drives, Anchor::start, wording), width);
  };
  const double numbers = std::max(height(values.first), height(values.against.drives));
  const Box band = box.take_top(1.3 * canvas.sizes().large + numbers, 14);
  const auto names = columns(band, 2, gap);
  paint_name(canvas, names[0], values.first, Ink::first, Anchor::start, wording);
  paint_name(canvas, names[1], values.against.drives, Ink::second, Anchor::end, wording);
}

Words difference_words(const Canvas& canvas, const DifferenceAnswer& difference,
                       const Wording& wording) {
  return {difference_text(difference, wording), canvas.sizes().small, Ink::ink, true,
          Anchor::middle};
}

// The difference as a ball: towards the side of the better quarterback.
void paint_difference(Canvas& canvas, const Box& box, const DifferenceAnswer& difference,
                      const Wording& wording) {
  const Number& net = difference.net_points_per_drive;
  const double reach = 1.15 * std::max({std::abs(net.low), std::abs(net.high), 0.1});
  const Box field = box.inset(0.14 * box.width, 0);
  const LinearScale x(-reach, reach, field.right(), field.x);
  const double y = box.y + 34;
  canvas.line({field.x, y}, {field.right(), y}, Ink::quiet, 2);
  draw_ball(canvas, x, net, y,
            {30, ink_of(difference.ahead, Ink::first, Ink::second), fill_of(difference.ahead)});
  draw_stick(canvas, x(0), y - 28, y + 20);
  write_numbers(canvas, difference_words(canvas, difference, wording),
                {box.x, y + 26, box.width, box.bottom() - y - 26});
}

void paint_rows(Canvas& canvas, Box box, const std::vector<ResultRow>& all,
                const Wording& wording) {
  const TextScale& sizes = canvas.sizes();
  const Box note = box.take_bottom(1.5 * sizes.foot);
  const auto most = static_cast<std::size_t>(box.height / (1.1 * sizes.foot));
  const std::size_t count = std::min(all.size(), most);
  if (count == 0) return;
  const Sides sides = sides_of(canvas, box, all);
  const double height = std::min(box.height / static_cast<double>(count), 3.4 * sizes.body);
  bool striped = true;
  for (std::size_t i = 0; i < count; ++i) {
    const Box row = box.take_top(height);
    if (striped) canvas.fill(row.inset(-10, 0), canvas.colour(Ink::strip));
    canvas.grouped(all[i].label, [&](Canvas& group) { paint_result(group, row, all[i], sides); });
    striped = !striped;
  }
  std::string text = wording("results_axis");
  if (count < all.size())
    text = wording("left_out", {{"count", std::to_string(all.size() - count)}}) + " " + text;
  canvas.write_in({text, sizes.foot, Ink::quiet},
                  {note.x, std::min(box.y + 6, note.y), note.width, note.height});
}

void paint(Canvas& canvas, Box box, const Results& values, const Wording& wording) {
  const TextScale& sizes = canvas.sizes();
  paint_names(canvas, box, values, wording);
  const auto rows = rows_of(values.first, values.against.drives);
  const double band_height =
      66 + numbers_height(canvas, difference_words(canvas, values.against.difference, wording),
                          box.width);
  const double least = static_cast<double>(rows.size() + 1) * 1.5 * sizes.foot;
  // In a small panel the results come first: the headline tells the difference as well.
  if (box.height > band_height + 16 + least) {
    const Box band = box.take_top(band_height, 16);
    paint_difference(canvas, band, values.against.difference, wording);
  }
  paint_rows(canvas, box, rows, wording);
}

Telling telling_of(const Results& values, const Wording& wording) {
  const DifferenceAnswer& difference = values.against.difference;
  std::string lines = difference_text(difference, wording) + ".\n";
  for (const ResultRow& row : rows_of(values.first, values.against.drives))
    lines += row.label + ": " + number_text(Unit::share, row.first) + " / " +
             number_text(Unit::share, row.second) + ".\n";
  auto deck = seed_caution(difference.ahead, wording);
  deck.push_back(wording("results_deck"));
  return {wording("results_kicker"),
          ahead_sentence(difference, values.first.about.scheme, wording),
          deck,
          {lean_note(wording), wording("results_note")},
          lines};
}

}  // namespace

Panel drive_results_panel(const DrivesAnswer& first, const DrivesAgainst& against,
                          const Wording& wording) {
  const Results values{first, against};
  return {telling_of(values, wording), [values, wording](Canvas& canvas, const Box& box) {
            paint(canvas, box, values, wording);
          }};
}

}  // namespace callfit

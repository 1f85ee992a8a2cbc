#include <callfit/graphic/pictures.hpp>

#include <callfit/base/isolated.hpp>
#include "graphic/fit_rows.hpp"
#include "graphic/parts.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace callfit {
namespace {

struct Part {
  std::string label;                   ///< quiet, above
  std::vector<std::string> sentences;  ///< the numbers
  Number number;
  Range scale;
  bool of_hundred = false;  ///< the scale counts men, else it is a difference around 0
  Ink ink = Ink::ink;
  Fill fill = Fill::solid;
  std::string low_end, high_end;  ///< what the ends of the scale are
};

Part place_part(const FitAnswer& fit, const Wording& wording) {
  return {wording("place_label", {{"scheme", isolated(fit.about.scheme)}}),
          {place_sentence(fit, wording)},
          fit.place,
          {0, 100},
          true,
          Ink::first,
          Fill::solid,
          wording("place_low"),
          wording("place_high")};
}

Part difference_part(const DifferenceAnswer& against, const Wording& wording) {
  const Number& drive = against.net_points_per_drive;
  const double reach = 1.1 * std::max({std::abs(drive.low), std::abs(drive.high), 0.1});
  return {wording("against_label", {{"other", isolated(against.second)}}),
          {drive_text(against, wording), game_text(against, wording)},
          drive,
          {-reach, reach},
          false,
          ink_of(against.ahead, Ink::first, Ink::second),
          fill_of(against.ahead),
          isolated(against.second),
          isolated(against.first)};
}

// One mark a man, as the sideline marks yards: tall where the place may be, tallest at the centre.
void hundred_marks(Canvas& canvas, const LinearScale& x, const Number& place, double base) {
  const double centre = std::clamp(std::round(place.centre), 1.0, 100.0);
  for (int man = 1; man <= 100; ++man) {
    const bool may_be = man >= place.low && man <= place.high;
    const bool here = man == static_cast<int>(centre);
    const double height = here ? 46 : may_be ? 26 : 10;
    canvas.line({x(man - 0.5), base - height}, {x(man - 0.5), base},
                may_be || here ? Ink::first : Ink::quiet, here ? 4 : 2,
                here ? Role::mark : Role::decor);
  }
}

void paint_scale(Canvas& canvas, const Box& band, const Part& part) {
  const LinearScale x(part.scale.low, part.scale.high, band.x + 4, band.right() - 4);
  if (part.of_hundred) {
    hundred_marks(canvas, x, part.number, band.bottom());
    return;
  }
  const double y = band.middle_y() + 6;
  canvas.line({band.x, y}, {band.right(), y}, Ink::quiet, 2);
  for (const double end : {band.x, band.right()})
    canvas.line({end, y - 8}, {end, y + 8}, Ink::quiet, 2);
  draw_ball(canvas, x, part.number, y, {28, part.ink, part.fill});
  draw_stick(canvas, x(0), y - 24, y + 18);
}

constexpr std::size_t sentence_lines = 3;
constexpr double scale_height = 58;

// A little smaller where that saves a line.
Words sentence_words(const Canvas& canvas, const std::string& sentence, double width) {
  constexpr double smallest = 0.84;
  Words words{sentence, canvas.sizes().small, Ink::ink};
  const double natural = canvas.width_of(words) + 1;
  if (natural > width && natural * smallest <= width) words.size *= width / natural;
  return words;
}

void paint_part(Canvas& canvas, Box box, const Part& part) {
  const TextScale& sizes = canvas.sizes();
  canvas.write_in({part.label, sizes.small, Ink::quiet, true}, box.take_top(1.3 * sizes.small));
  for (const std::string& sentence : part.sentences)
    box.take_top(
        canvas.write_block(sentence_words(canvas, sentence, box.width), box, sentence_lines));
  box.take_top(8);
  paint_scale(canvas, box.take_top(scale_height), part);
  box.take_top(6);
  const Box ends = box.take_top(1.3 * sizes.foot);
  const double half = ends.width / 2 - 10, baseline = ends.y + sizes.foot;
  canvas.write({part.low_end, sizes.foot, Ink::quiet}, {ends.x, baseline}, half);
  canvas.write({part.high_end, sizes.foot, Ink::quiet, false, Anchor::end},
               {ends.right(), baseline}, half);
}

double part_height(const Canvas& canvas, const Part& part, double width) {
  const TextScale& sizes = canvas.sizes();
  double height = 1.3 * sizes.small + 14 + scale_height + 1.3 * sizes.foot;
  for (const std::string& sentence : part.sentences)
    height += canvas.block_height(sentence_words(canvas, sentence, width), width, sentence_lines);
  return height;
}

std::vector<Part> parts_of(const FitAnswer& fit, const std::optional<DifferenceAnswer>& against,
                           const Wording& wording) {
  std::vector<Part> parts;
  if (against) parts.push_back(difference_part(*against, wording));
  parts.push_back(place_part(fit, wording));
  return parts;
}

void paint(Canvas& canvas, Box box, const FitAnswer& fit,
           const std::optional<DifferenceAnswer>& against, const FitAnswer* start,
           const Wording& wording) {
  const auto parts = parts_of(fit, against, wording);
  std::vector<Box> places;
  if (box.width > 45 * canvas.sizes().body) {
    Box side = box.take_right(0.27 * box.width, 56);
    for (const Part& part : parts)
      places.push_back(side.take_top(part_height(canvas, part, side.width), 44));
  } else {
    places = columns(box, parts.size(), 48);
    double height = 0;
    for (const Part& part : parts)
      height = std::max(height, part_height(canvas, part, places.front().width));
    if (height < 0.45 * box.height)
      box.take_top(height, 16);
    else
      places.clear();
  }
  paint_families(canvas, box, fit, start, wording);
  for (std::size_t i = 0; i < places.size(); ++i) paint_part(canvas, places[i], parts[i]);
}

}  // namespace

Panel fit_panel(const FitAnswer& fit, const std::optional<DifferenceAnswer>& against,
                const Wording& wording, const std::optional<FitAnswer>& start) {
  return {fit_telling(fit, against, wording),
          [fit, against, wording, start](Canvas& canvas, const Box& box) {
            paint(canvas, box, fit, against, start ? &*start : nullptr, wording);
          }};
}

}  // namespace callfit

#include <callfit/graphic/fit_picture.hpp>

#include "graphic/fit_rows.hpp"
#include "graphic/parts.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace callfit {
namespace {

struct Answer {
  std::string label;
  std::string big;
  std::string range;
  std::string caption;
  Reading reading;
  Range scale;
  std::optional<double> line;
  Ink ink = Ink::ink;
};

Answer fit_answer(const FitPicture& values, const Wording& wording) {
  const auto whole = [](double value) { return number_text(value, 0); };
  return {wording("fit_label"),
          whole(values.fit.value),
          wording("range", {{"low", whole(values.fit.low)}, {"high", whole(values.fit.high)}}),
          wording("fit_worse_share",
                  {{"share", percent_text(values.worse_share)}, {"population", values.population}}),
          values.fit,
          {0, 100},
          std::nullopt,
          Ink::ink};
}

Answer points_answer(const PointsAgainst& against, const Wording& wording) {
  const Reading& drive = against.per_drive;
  const double reach = 1.1 * std::max({std::abs(drive.low), std::abs(drive.high), 0.1});
  const std::string unit = " " + wording("points_per_drive");
  const std::string range = range_text(drive, Unit::points, wording) + unit;
  const std::string game =
      wording("points_per_game",
              {{"points", wording("range", {{"low", signed_text(against.per_game.low, 1)},
                                            {"high", signed_text(against.per_game.high, 1)}})}});
  const std::string label = wording("against_label", {{"other", isolated(against.other)}});
  const bool clear = drive.clear_of(0);
  const Ink ink = !clear ? Ink::ink : drive.value > 0 ? Ink::first : Ink::second;
  return {label, clear ? signed_text(drive.value, 2) : wording("toss_up"),
          range, game,
          drive, {-reach, reach},
          0.0,   ink};
}

void paint_answer(Canvas& canvas, Box box, const Answer& answer) {
  const TextScale& sizes = canvas.sizes();
  canvas.write({answer.label, sizes.small, Ink::quiet, true}, {box.x, box.y + sizes.small},
               box.width);
  box.take_top(1.3 * sizes.small);
  Words big{answer.big, sizes.huge, answer.ink, true};
  big.size *= std::min(1.0, box.width / std::max(canvas.width_of(big), 1.0));
  canvas.write(big, {box.x, box.y + 0.86 * sizes.huge}, box.width + 1);
  box.take_top(1.18 * sizes.huge);
  const Box band = box.take_top(54, 6);
  const LinearScale x(answer.scale.low, answer.scale.high, band.x + 4, band.right() - 4);
  const double y = band.y + 28;
  canvas.line({band.x, y}, {band.right(), y}, Ink::quiet, 2);
  for (const double end : {band.x, band.right()})
    canvas.line({end, y - 8}, {end, y + 8}, Ink::quiet, 2);
  const Fill fill = answer.line ? fill_of(answer.reading, *answer.line) : Fill::solid;
  draw_ball(canvas, x, answer.reading, y, {28, answer.ink, fill});
  if (answer.line) draw_stick(canvas, x(*answer.line), y - 26, y + 18);
  for (const std::string& line : {answer.range, answer.caption})
    canvas.write_in({line, sizes.small, Ink::ink}, box.take_top(1.28 * sizes.small));
}

double answer_height(const TextScale& sizes) {
  return 1.3 * sizes.small + 1.18 * sizes.huge + 60 + 2 * 1.28 * sizes.small;
}

std::vector<Answer> answers_of(const FitPicture& values, const Wording& wording) {
  std::vector<Answer> answers;
  if (values.against) answers.push_back(points_answer(*values.against, wording));
  answers.push_back(fit_answer(values, wording));
  return answers;
}

void paint(Canvas& canvas, Box box, const FitPicture& values, const Wording& wording) {
  const auto answers = answers_of(values, wording);
  const double gap = 48;
  std::vector<Box> places;
  if (box.width > 45 * canvas.sizes().body) {
    places = rows(box.take_right(0.25 * box.width, 56), 2, 24);
  } else {
    const double height = answer_height(canvas.sizes());
    if (height < 0.45 * box.height) places = columns(box.take_top(height, 12), 2, gap);
  }
  paint_families(canvas, box, values, wording);
  for (std::size_t i = 0; i < std::min(answers.size(), places.size()); ++i)
    paint_answer(canvas, places[i], answers[i]);
}

}  // namespace

Panel fit_panel(const FitPicture& values, const Wording& wording) {
  return {fit_telling(values, wording), [values, wording](Canvas& canvas, const Box& box) {
            paint(canvas, box, values, wording);
          }};
}

}  // namespace callfit

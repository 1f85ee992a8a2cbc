#include "graphic/parts.hpp"

#include <algorithm>

namespace callfit {

Fill fill_of(const Reading& reading, double line) {
  return reading.clear_of(line) ? Fill::solid : Fill::hollow;
}

namespace {

struct Spindle {
  double low, mid, high;  // pixels along it
  double thickness;
  Colour colour, ground;
  Fill fill;
};

Spindle spindle_of(const LinearScale& scale, const Reading& reading, double thickness,
                   Colour colour, Colour ground, Fill fill) {
  constexpr double least_half_length = 5;  // pixels: a sure value stays visible
  const double mid = scale(reading.value), a = scale(reading.low), b = scale(reading.high);
  return {std::min({a, b, mid - least_half_length}),
          mid,
          std::max({a, b, mid + least_half_length}),
          thickness,
          colour,
          ground,
          fill};
}

// `at` puts a point (along, across) on the canvas.
template <class At>
void paint_spindle(Canvas& canvas, const Spindle& s, const At& at) {
  const double h = s.thickness / 2, l = s.mid - s.low, r = s.high - s.mid;
  const auto curve = [](Point a, Point b, Point c) {
    return PathStep{'C', {a.x, a.y, b.x, b.y, c.x, c.y}};
  };
  const Point tip = at(s.low, 0);
  const std::vector<PathStep> outline = {
      {'M', {tip.x, tip.y}},
      curve(at(s.low + 0.35 * l, -0.55 * h), at(s.mid - 0.35 * l, -h), at(s.mid, -h)),
      curve(at(s.mid + 0.35 * r, -h), at(s.high - 0.35 * r, -0.55 * h), at(s.high, 0)),
      curve(at(s.high - 0.35 * r, 0.55 * h), at(s.mid + 0.35 * r, h), at(s.mid, h)),
      curve(at(s.mid - 0.35 * l, h), at(s.low + 0.35 * l, 0.55 * h), at(s.low, 0)),
      {'Z', {}}};
  const bool solid = s.fill == Fill::solid;
  Stroke edge{s.colour, 3, {}};
  if (s.fill == Fill::dashed) edge.dash = {8, 6};
  canvas.path(outline, {solid ? s.colour : s.ground, edge, Role::mark});
  const Stroke lace{solid ? s.ground : s.colour, 4, {}};
  const double reach = std::max(h - 4, 2.0);
  canvas.add({LineShape{at(s.mid, -reach), at(s.mid, reach), {std::nullopt, lace, Role::mark}}});
}

}  // namespace

void draw_ball(Canvas& canvas, const LinearScale& x, const Reading& reading, double y,
               const BallLook& look) {
  paint_spindle(canvas,
                spindle_of(x, reading, look.thickness, canvas.colour(look.ink),
                           canvas.colour(look.ground), look.fill),
                [y](double along, double across) {
                  return Point{along, y + across};
                });
}

void draw_upright_ball(Canvas& canvas, const LinearScale& y, const Reading& reading, double x,
                       const BallLook& look) {
  paint_spindle(canvas,
                spindle_of(y, reading, look.thickness, canvas.colour(look.ink),
                           canvas.colour(look.ground), look.fill),
                [x](double along, double across) {
                  return Point{x + across, along};
                });
}

void draw_stick(Canvas& canvas, double x, double top, double bottom) {
  canvas.line({x, top}, {x, bottom}, Ink::stick, 4, Role::mark);
  canvas.dot({x, top}, 9, Ink::stick);
}

double ball_thickness(double share, double largest, double fattest) {
  constexpr double thinnest = 8;
  if (largest <= 0) return thinnest;
  return std::max(thinnest, fattest * share / largest);
}

std::string value_text(double value, Unit unit) {
  switch (unit) {
    case Unit::share:
      return percent_text(value);
    case Unit::yards:
      return number_text(value, 1) + " yd";
    case Unit::points:
      return signed_text(value, 2);
    case Unit::fit:
      return number_text(value, 0);
  }
  return {};
}

std::string range_text(const Reading& reading, Unit unit, const Wording& wording) {
  return wording(
      "range", {{"low", value_text(reading.low, unit)}, {"high", value_text(reading.high, unit)}});
}

std::string name_list(const std::vector<std::string>& names, std::size_t shown,
                      const Wording& wording) {
  std::string list;
  for (std::size_t i = 0; i < std::min(shown, names.size()); ++i)
    list += (i == 0 ? "" : ", ") + isolated(names[i]);
  if (names.size() <= shown) return list;
  return wording("and_more", {{"list", list}, {"count", std::to_string(names.size() - shown)}});
}

Range hull(const std::vector<Reading>& readings, double line) {
  Range range{line, line};
  for (const Reading& reading : readings) {
    range.low = std::min(range.low, reading.low);
    range.high = std::max(range.high, reading.high);
  }
  return range;
}

}  // namespace callfit

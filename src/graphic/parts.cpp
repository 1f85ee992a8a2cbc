#include "graphic/parts.hpp"

#include <algorithm>

namespace callfit {

Fill fill_of(const Reading& reading, double line) {
  return reading.clear_of(line) ? Fill::solid : Fill::hollow;
}

namespace {

// The spindle lies along one axis; `at` puts a point (along, across) on the canvas.
template <class At>
void spindle(Canvas& canvas, double low, double mid, double high, const BallLook& look,
             const At& at) {
  const double h = look.thickness / 2;
  const auto curve = [&](Point a, Point b, Point c) {
    return PathStep{'C', {a.x, a.y, b.x, b.y, c.x, c.y}};
  };
  const double l = mid - low, r = high - mid;
  const Point tip = at(low, 0);
  const std::vector<PathStep> outline = {
      {'M', {tip.x, tip.y}},
      curve(at(low + 0.35 * l, -0.55 * h), at(mid - 0.35 * l, -h), at(mid, -h)),
      curve(at(mid + 0.35 * r, -h), at(high - 0.35 * r, -0.55 * h), at(high, 0)),
      curve(at(high - 0.35 * r, 0.55 * h), at(mid + 0.35 * r, h), at(mid, h)),
      curve(at(mid - 0.35 * l, h), at(low + 0.35 * l, 0.55 * h), at(low, 0)),
      {'Z', {}}};
  const bool solid = look.fill == Fill::solid;
  Stroke edge{canvas.colour(look.ink), 3, {}};
  if (look.fill == Fill::dashed) edge.dash = {8, 6};
  canvas.path(outline, {canvas.colour(solid ? look.ink : look.ground), edge, Role::mark});
  const Stroke lace{canvas.colour(solid ? look.ground : look.ink), 4, {}};
  const double reach = std::max(h - 4, 2.0);
  canvas.add({LineShape{at(mid, -reach), at(mid, reach), {std::nullopt, lace, Role::mark}}});
}

constexpr double least_half_length = 5;  // pixels: a sure value stays visible

}  // namespace

void draw_ball(Canvas& canvas, const LinearScale& x, const Reading& reading, double y,
               const BallLook& look) {
  const double mid = x(reading.value), a = x(reading.low), b = x(reading.high);
  spindle(canvas, std::min({a, b, mid - least_half_length}), mid,
          std::max({a, b, mid + least_half_length}), look, [y](double along, double across) {
            return Point{along, y + across};
          });
}

void draw_upright_ball(Canvas& canvas, const LinearScale& y, const Reading& reading, double x,
                       const BallLook& look) {
  const double mid = y(reading.value), a = y(reading.low), b = y(reading.high);
  spindle(canvas, std::min({a, b, mid - least_half_length}), mid,
          std::max({a, b, mid + least_half_length}), look, [x](double along, double across) {
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

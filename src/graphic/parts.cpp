#include "graphic/parts.hpp"
#include "report/phrases.hpp"

#include <algorithm>

namespace callfit {

Fill fill_of(const Verdict& verdict) {
  switch (verdict.lean()) {
    case Lean::clear:
      return Fill::solid;
    case Lean::leans:
      return Fill::half;
    default:
      return Fill::hollow;
  }
}

Fill fill_of(const Number& number, double line) {
  return one_sided(moved(number, -line)) ? Fill::solid : Fill::hollow;
}

Ink ink_of(const Verdict& verdict, Ink yes, Ink no) {
  if (verdict.lean() == Lean::open) return Ink::ink;
  return verdict.yes() ? yes : no;
}

Ink ink_of(const Number& number, double line, Ink above, Ink below) {
  if (!one_sided(moved(number, -line))) return Ink::ink;
  return number.low > line ? above : below;
}

namespace {

struct Spindle {
  double low, mid, high;  // pixels along it
  double thickness;
  Colour colour, ground;
  Fill fill;
};

Spindle spindle_of(const LinearScale& scale, const Number& number, double thickness, Colour colour,
                   Colour ground, Fill fill) {
  constexpr double least_half_length = 5;  // pixels: a sure value stays visible
  const double mid = scale(number.centre), a = scale(number.low), b = scale(number.high);
  return {std::min({a, b, mid - least_half_length}),
          mid,
          std::max({a, b, mid + least_half_length}),
          thickness,
          colour,
          ground,
          fill};
}

// `at` puts a point (along, across) on the canvas. `side` -1 or 1: which half of the outline, from
// the low to the high end.
template <class At>
std::vector<PathStep> half_outline(const Spindle& s, double side, const At& at) {
  const double h = side * s.thickness / 2, l = s.mid - s.low, r = s.high - s.mid;
  const auto curve = [](Point a, Point b, Point c) {
    return PathStep{'C', {a.x, a.y, b.x, b.y, c.x, c.y}};
  };
  const Point tip = at(s.low, 0);
  return {{'M', {tip.x, tip.y}},
          curve(at(s.low + 0.35 * l, 0.55 * h), at(s.mid - 0.35 * l, h), at(s.mid, h)),
          curve(at(s.mid + 0.35 * r, h), at(s.high - 0.35 * r, 0.55 * h), at(s.high, 0))};
}

template <class At>
std::vector<PathStep> outline_of(const Spindle& s, const At& at) {
  const double h = s.thickness / 2, l = s.mid - s.low, r = s.high - s.mid;
  const auto curve = [](Point a, Point b, Point c) {
    return PathStep{'C', {a.x, a.y, b.x, b.y, c.x, c.y}};
  };
  auto steps = half_outline(s, -1, at);
  steps.push_back(curve(at(s.high - 0.35 * r, 0.55 * h), at(s.mid + 0.35 * r, h), at(s.mid, h)));
  steps.push_back(curve(at(s.mid - 0.35 * l, h), at(s.low + 0.35 * l, 0.55 * h), at(s.low, 0)));
  steps.push_back({'Z', {}});
  return steps;
}

template <class At>
void paint_lace(Canvas& canvas, const Spindle& s, double from, double to, Colour colour,
                const At& at) {
  canvas.add({LineShape{
      at(s.mid, from), at(s.mid, to), {std::nullopt, Stroke{colour, 4, {}}, Role::mark}}});
}

template <class At>
void paint_spindle(Canvas& canvas, const Spindle& s, const At& at) {
  const bool solid = s.fill == Fill::solid;
  Stroke edge{s.colour, 3, {}};
  if (s.fill == Fill::dashed) edge.dash = {8, 6};
  canvas.path(outline_of(s, at), {solid ? s.colour : s.ground, edge, Role::mark});
  const double reach = std::max(s.thickness / 2 - 4, 2.0);
  if (s.fill != Fill::half) {
    paint_lace(canvas, s, -reach, reach, solid ? s.ground : s.colour, at);
    return;
  }
  auto half = half_outline(s, 1, at);
  half.push_back({'Z', {}});
  canvas.path(half, {s.colour, std::nullopt, Role::mark});
  paint_lace(canvas, s, -reach, -1, s.colour, at);
  paint_lace(canvas, s, 1, reach, s.ground, at);
}

}  // namespace

void draw_ball(Canvas& canvas, const LinearScale& x, const Number& number, double y,
               const BallLook& look) {
  paint_spindle(canvas,
                spindle_of(x, number, look.thickness, canvas.colour(look.ink),
                           canvas.colour(look.ground), look.fill),
                [y](double along, double across) {
                  return Point{along, y + across};
                });
}

void draw_upright_ball(Canvas& canvas, const LinearScale& y, const Number& number, double x,
                       const BallLook& look) {
  paint_spindle(canvas,
                spindle_of(y, number, look.thickness, canvas.colour(look.ink),
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
  constexpr double thinnest = 18;  // a half filled one can be told from a solid one
  if (largest <= 0) return thinnest;
  return std::max(thinnest, fattest * share / largest);
}

std::string percent_tick(double tick, int decimals) {
  return fixed(100 * tick, std::max(decimals - 2, 0)) + "%";
}

Range hull(const std::vector<Number>& numbers, double line) {
  Range range{line, line};
  for (const Number& number : numbers) {
    range.low = std::min(range.low, number.low);
    range.high = std::max(range.high, number.high);
  }
  return range;
}

}  // namespace callfit

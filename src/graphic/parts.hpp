// The signs that all pictures share: the ball (an estimate with its interval) and the stick (the
// line it has to reach).
#pragma once

#include <callfit/draw/scale.hpp>
#include <callfit/graphic/dress.hpp>

#include <string>
#include <vector>

namespace callfit {

enum class Fill { solid, hollow, dashed };

/// Solid when the interval is clear of `line`, hollow when it is not.
Fill fill_of(const Reading& reading, double line);

struct BallLook {
  double thickness = 24;  ///< pixels, at the estimate
  Ink ink = Ink::first;
  Fill fill = Fill::solid;
  Ink ground = Ink::paper;
};

/// A spindle from `reading`'s low to its high end, fattest at the value: long where unsure, and
/// as fat as it matters.
void draw_ball(Canvas& canvas, const LinearScale& x, const Reading& reading, double y,
               const BallLook& look);

/// The same on a vertical scale, at `x`.
void draw_upright_ball(Canvas& canvas, const LinearScale& y, const Reading& reading, double x,
                       const BallLook& look);

/// A pole from `top` to `bottom` with a disc on it.
void draw_stick(Canvas& canvas, double x, double top, double bottom);

/// Thickness for a share of the largest share: proportional, but never too thin to see.
double ball_thickness(double share, double largest, double fattest);

std::string value_text(double value, Unit unit);
std::string range_text(const Reading& reading, Unit unit, const Wording& wording);

/// "a, b and 3 more" with at most `shown` names.
std::string name_list(const std::vector<std::string>& names, std::size_t shown,
                      const Wording& wording);

/// Smallest interval that holds all readings and `line`.
Range hull(const std::vector<Reading>& readings, double line);

}  // namespace callfit

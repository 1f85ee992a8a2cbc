// The signs that all pictures share: the ball (an estimate with its interval) and the stick (the
// line it has to reach).
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/draw/scale.hpp>
#include <callfit/graphic/dress.hpp>
#include <callfit/report/number_text.hpp>
#include <telling/sentences.hpp>

#include <string>
#include <vector>

namespace callfit {

/// What the odds allow to claim, without colour: solid clear, half leans, hollow open. Dashed:
/// nothing was charted.
enum class Fill { solid, half, hollow, dashed };

Fill fill_of(const Verdict& verdict);

/// Of a number whose odds are not known: its interval lies off `line`, or it is open.
Fill fill_of(const Number& number, double line);

/// The colour of the likelier side; plain ink where it is open which one that is.
Ink ink_of(const Verdict& verdict, Ink yes, Ink no);
Ink ink_of(const Number& number, double line, Ink above, Ink below);

struct BallLook {
  double thickness = 24;  ///< pixels, at the estimate
  Ink ink = Ink::first;
  Fill fill = Fill::solid;
  Ink ground = Ink::paper;
};

/// A spindle from the number's low to its high end, fattest at the centre: long where unsure, and
/// as fat as it matters.
void draw_ball(Canvas& canvas, const LinearScale& x, const Number& number, double y,
               const BallLook& look);

/// The same on a vertical scale, at `x`.
void draw_upright_ball(Canvas& canvas, const LinearScale& y, const Number& number, double x,
                       const BallLook& look);

/// A pole from `top` to `bottom` with a disc on it.
void draw_stick(Canvas& canvas, double x, double top, double bottom);

/// Thickness for a share of the largest share: proportional, but never too thin to see.
double ball_thickness(double share, double largest, double fattest);

/// Labels of an axis; `decimals` tell the ticks apart.
std::string percent_tick(double tick, int decimals);

/// Smallest interval that holds all numbers and `line`.
Range hull(const std::vector<Number>& numbers, double line);

}  // namespace callfit

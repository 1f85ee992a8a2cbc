// The signs that all pictures share: the ball (an estimate with its interval) and the stick (the
// line it has to reach), and the sentences that several pictures say.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/draw/scale.hpp>
#include <callfit/graphic/dress.hpp>
#include <callfit/report/number_text.hpp>

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

/// Who is ahead in a scheme (empty: none is named), how surely, and the odds.
std::string ahead_sentence(const DifferenceAnswer& difference, const std::string& scheme,
                           const Wording& wording);

/// "+0.14 (-0.12 to +0.41) net points a drive"; "+1.50 (-1.30 to +4.50) a game"; both.
std::string drive_text(const DifferenceAnswer& difference, const Wording& wording);
std::string game_text(const DifferenceAnswer& difference, const Wording& wording);
std::string difference_text(const DifferenceAnswer& difference, const Wording& wording);

/// That another seed may choose another word; empty where none would.
std::vector<std::string> seed_caution(const Verdict& verdict, const Wording& wording);

/// What solid, half filled and hollow claim, with the odds they begin at.
std::string lean_note(const Wording& wording);

/// Names that share one verdict.
struct NameGroup {
  std::string how;  ///< "probably short"
  std::vector<std::string> names;
};

/// "Clearly short: a, b. Open: c and 3 more."
std::vector<std::string> group_sentences(const std::vector<NameGroup>& groups,
                                         const Wording& wording);

/// "a, b and 3 more" with at most `shown` names.
std::string name_list(const std::vector<std::string>& names, std::size_t shown,
                      const Wording& wording);

/// Smallest interval that holds all numbers and `line`.
Range hull(const std::vector<Number>& numbers, double line);

}  // namespace callfit

#include <callfit/report/answer_text.hpp>

#include "report/phrases.hpp"

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

constexpr double visible = 0.005;
constexpr std::size_t told_moves = 12;

std::vector<Moved> largest_first(std::vector<Moved> moved) {
  std::stable_sort(moved.begin(), moved.end(), [](const Moved& a, const Moved& b) {
    return std::abs(a.after - a.before) > std::abs(b.after - b.before);
  });
  return moved;
}

std::string moves_table(const std::vector<Moved>& moves, bool more) {
  std::size_t told = 0;
  Table table({{more ? "call more" : "call less", Align::left, 70}, {"from"}, {"to"}});
  for (const Moved& move : moves)
    if ((more ? 1 : -1) * (move.after - move.before) > visible && ++told <= told_moves)
      table.add({move.label, percent(move.before), percent(move.after)});
  const std::size_t left_out = told > told_moves ? told - told_moves : 0;
  return table.text() + (left_out > 0 ? "and " + std::to_string(left_out) + " more\n" : "");
}

std::string bound_sentence(const TailorAnswer& answer) {
  return "Net points per drive at the mean rates: " +
         value_text(Unit::signed_points, answer.net_before) + " as called, " +
         value_text(Unit::signed_points, answer.net_after) +
         " with one mix a situation, which a coach can use; " +
         value_text(Unit::signed_points, answer.net_bound) +
         " at most, if every snap had its own best mix within the limits.";
}

}  // namespace

std::string tailor_text(const TailorAnswer& answer) {
  const std::vector<Moved> moves = largest_first(answer.effect.moved);
  const TailorLimits& limits = answer.limits;
  std::string text =
      wrapped(answer.about.scheme + " bent to " + answer.about.quarterback +
              ", each share by at most " + percent(limits.move) + ", passes by at most " +
              percent(limits.run_pass) + ": " + better_sentence(answer.effect) + ".") +
      wrapped(bound_sentence(answer)) + tape_line(answer.about) + '\n' + moves_table(moves, true) +
      '\n' + moves_table(moves, false) + '\n' + effects_table(answer.effect) + net_points_meaning +
      '\n';
  if (limits.fade > 0)
    text += wrapped("Of an added share d the part " + value_text(Unit::number, limits.fade) +
                    " x d is expected and worth no more than the mix as it was.");
  return text + wrapped(
                    "Caution: defences adapt. What is called more is seen more; take these as "
                    "the direction to lean, not as numbers to reach.");
}

}  // namespace callfit

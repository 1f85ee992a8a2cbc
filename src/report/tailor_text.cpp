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

std::string own_sentence(const TailorAnswer& answer) {
  const std::string own = number_text(Unit::signed_points, answer.own_net_points_per_game) +
                          " net points a game more for " + answer.about.quarterback +
                          " than for the average quarterback of this level (odds " +
                          odds_words(answer.own.odds) + ")";
  if (!answer.advised)
    return "Nothing to go by: what is special about " + answer.about.quarterback +
           " does not say which calls should come more often. The best guess would bring " + own +
           ". " + capital(net_points_meaning) + '.';
  return answer.about.scheme + " bent to " + answer.about.quarterback + ": " + own + ".";
}

}  // namespace

std::string tailor_text(const TailorAnswer& answer) {
  const TailorLimits& limits = answer.limits;
  std::string text =
      wrapped(own_sentence(answer)) +
      wrapped(
          "What every quarterback would gain by a call is left out, since defences have "
          "answered it. Each share moves by at most " +
          percent(limits.move) + ", passes by at most " + percent(limits.run_pass) +
          "; more of a call only where it can be called, " +
          (limits.uncharted ? "charted or not." : "and only if it was charted.")) +
      tape_line(answer.about);
  if (!answer.advised) return text;
  const std::vector<Moved> moves = largest_first(answer.effect.moved);
  text += '\n' + moves_table(moves, true) + '\n' + moves_table(moves, false) + '\n' +
          effects_table(answer.effect);
  if (limits.fade > 0)
    text += wrapped("Of an added share d the part " + value_text(Unit::number, limits.fade) +
                    " x d is expected and worth no more than the mix as it was.");
  return text + wrapped(
                    "Caution: defences adapt. What is called more is seen more; take these as "
                    "the direction to lean, not as numbers to reach.");
}

}  // namespace callfit

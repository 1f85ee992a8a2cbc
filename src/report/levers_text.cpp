#include <callfit/report/answer_text.hpp>

#include "report/phrases.hpp"

#include <algorithm>

namespace callfit {
namespace {

std::string head(const LeversAnswer& answer) {
  const auto first = std::find_if(answer.levers.begin(), answer.levers.end(),
                                  [](const LeverAnswer& lever) { return !lever.of_handoffs; });
  if (first == answer.levers.end()) return "nothing to turn";
  const Number& net = first->net_points_per_game;
  return "the largest lever, handoffs apart, is " + first->label + ": one step is worth " +
         value_text(Unit::signed_points, net.centre) + " net points a game, 90% interval " +
         range_text(Unit::signed_points, net) +
         (one_sided(net) ? "" : "; open whether it gains at all");
}

}  // namespace

std::string levers_text(const LeversAnswer& answer, std::size_t most) {
  Table table({{"lever", Align::left, 44},
               {"now"},
               {"a step to"},
               {"net a game"},
               {"90% interval"},
               {"place"}});
  for (std::size_t i = 0; i < std::min(most, answer.levers.size()); ++i) {
    const LeverAnswer& lever = answer.levers[i];
    table.add({lever.label, knob_text(lever.unit, lever.now),
               knob_text(lever.unit, lever.now + lever.step),
               value_text(Unit::signed_points, lever.net_points_per_game.centre),
               range_text(Unit::signed_points, lever.net_points_per_game),
               value_text(Unit::signed_place, lever.place)});
  }
  return wrapped(stand_text(answer.about) + ": " + head(answer) + '.') + tape_line(answer.about) +
         '\n' + table.text() +
         wrapped(
             "One step is one spread between quarterbacks of this level, or 10 percentage "
             "points of calls, toward more net points. Values are exact derivatives times the "
             "step. now: his means, where answers tell middles; place: change of the place of "
             "100; " +
             std::string(net_points_meaning));
}

}  // namespace callfit

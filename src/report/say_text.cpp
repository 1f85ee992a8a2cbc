#include <callfit/report/answer_text.hpp>

#include "report/phrases.hpp"

namespace callfit {
namespace {

std::string place_said(const SayAnswer& answer) {
  return "On " + tape_phrase(answer.about) + ", " + value_text(Unit::place, answer.place.centre) +
         " of 100 quarterbacks of this level fit " + answer.about.scheme + " worse than " +
         answer.about.quarterback + "; it could be " + range_text(Unit::place, answer.place) + ".";
}

std::string demand_said(const SaidDemand& said) {
  const DemandAnswer& demand = said.demand;
  const Unit unit = unit_of_measure(demand.in_yards);
  const std::string odds = odds_words(demand.reaches.odds);
  const std::string made = counted(demand.made, demand.of);
  const bool even = odds == odds_words(0.5);
  return (even ? "It is open whether he " : capital(odds) + " that he ") +
         (even                   ? "gives"
          : demand.reaches.yes() ? "gives"
                                 : "falls short of") +
         " what is asked of " + said.family + " in " + demand.label + ": " +
         number_text(unit, demand.estimate) + " against " + value_text(unit, demand.asked) +
         " asked" + (made.empty() ? "" : ", with " + made + " charted") +
         (demand.reaches.is_the_levels() ? ", as most of his level are." : ".");
}

}  // namespace

std::string paragraph(const SayAnswer& answer) {
  std::string text = place_said(answer);
  for (const SaidDemand& said : answer.demands) text += ' ' + demand_said(said);
  if (answer.difference)
    text += ' ' + difference_sentence(*answer.difference) + ' ' + capital(net_points_meaning) + '.';
  return text;
}

std::string say_text(const SayAnswer& answer) { return wrapped(paragraph(answer)); }

}  // namespace callfit

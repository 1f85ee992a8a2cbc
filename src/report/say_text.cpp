#include <callfit/report/answer_text.hpp>

#include "report/phrases.hpp"

namespace callfit {
namespace {

std::string place_said(const SayAnswer& answer) {
  return "On " + tape_phrase(answer.about) + ", " + value_text(Unit::place, answer.place.centre) +
         " of 100 quarterbacks of this level fit " + answer.about.scheme + " worse than " +
         answer.about.quarterback + "; it could be " + range_text(Unit::place, answer.place) + ".";
}

// Where the bare count lies on the other side of what is asked, it is said why.
std::string charted_said(const DemandAnswer& demand) {
  const std::string made = counted(demand.made, demand.of);
  if (made.empty()) return "";
  const bool above = demand.estimate.centre >= demand.asked;
  if ((demand.made / demand.of >= demand.asked) == above) return ", with " + made + " charted";
  return ", though " + made +
         " were charted (snaps count by their level, and few are pulled toward quarterbacks of "
         "this one)";
}

std::string demand_said(const SaidDemand& said) {
  const DemandAnswer& demand = said.demand;
  const Unit unit = unit_of_measure(demand.in_yards);
  const std::string odds = odds_words(demand.reaches.odds);
  const bool even = odds == odds_words(0.5);
  return (even ? "It is open whether he " : capital(odds) + " that he ") +
         (even                   ? "gives"
          : demand.reaches.yes() ? "gives"
                                 : "falls short of") +
         " what is asked of " + said.family + " in " + demand.label + ": " +
         number_text(unit, demand.estimate) + " against " + value_text(unit, demand.asked) +
         " asked" + charted_said(demand) +
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

#include <callfit/report/answer_text.hpp>

#include "report/phrases.hpp"

namespace callfit {
namespace {

std::string ends_text(const BreakEvenAnswer& answer) {
  return "at " + knob_text(answer.unit, answer.low) + " the difference is " +
         value_text(Unit::signed_points, answer.net_at_low) +
         " net points a game at the mean "
         "rates, at " +
         knob_text(answer.unit, answer.high) + " " +
         value_text(Unit::signed_points, answer.net_at_high);
}

// Which side of the value his own lies, in odds.
std::string own_value_text(const BreakEvenAnswer& answer) {
  if (!answer.ahead_of_it) return "";
  const Verdict& verdict = *answer.ahead_of_it;
  const bool above = verdict.yes() == answer.more_helps;
  return " Odds that " + answer.first.quarterback + "'s own value lies " +
         (above ? "above" : "below") + " it, where " +
         (verdict.yes() ? answer.now_difference.first : answer.now_difference.second) +
         " is ahead: " + odds_words(verdict.odds) + ".";
}

std::string answer_sentence(const BreakEvenAnswer& answer) {
  const DifferenceAnswer& now = answer.now_difference;
  const std::string whose = answer.both ? "the " + answer.label + " of both"
                                        : answer.first.quarterback + "'s " + answer.label;
  if (!answer.value)
    return "No value of " + whose + " makes " + now.first + " and " + now.second +
           " worth the same: " + ends_text(answer) + ".";
  return now.first + " is worth as much as " + now.second + " when " + whose + " is " +
         knob_text(answer.unit, *answer.value) + "; now it is " +
         knob_text(answer.unit, answer.now) + ", and " + (answer.more_helps ? "more" : "less") +
         " of it helps " + now.first + "." + own_value_text(answer);
}

std::string ends_table(const BreakEvenAnswer& answer) {
  Table table({{answer.label, Align::left, 50}, {"net points a game, first less second"}});
  const auto add = [&](double at, double net) {
    table.add({knob_text(answer.unit, at), value_text(Unit::signed_points, net)});
  };
  add(answer.low, answer.net_at_low);
  if (answer.value) table.add({knob_text(answer.unit, *answer.value), "the same"});
  add(answer.high, answer.net_at_high);
  return table.text();
}

}  // namespace

std::string break_even_text(const BreakEvenAnswer& answer) {
  return wrapped(answer_sentence(answer)) +
         wrapped("As things stand: " + difference_sentence(answer.now_difference)) +
         wrapped(answer.first.quarterback + ", " + tape_line(answer.first)) +
         wrapped(answer.second.quarterback + ", " + tape_line(answer.second)) + '\n' +
         ends_table(answer) +
         wrapped("Everything else is held at its mean. " + capital(net_points_meaning) + ".");
}

}  // namespace callfit

#include <callfit/report/answer_text.hpp>

#include "report/phrases.hpp"

namespace callfit {
namespace {

std::string half(Unit unit, double width) { return "±" + value_text(unit, width); }

std::string half_of(Unit unit, const Number& number) {
  return half(unit, (number.high - number.low) / 2);
}

std::string more_of(const NextAnswer& answer) {
  return fixed(answer.more_snaps, 0) + " more snaps";
}

std::string head(const NextAnswer& answer) {
  const std::string now = answer.about.quarterback + " in " + answer.about.scheme +
                          ", net points a game " +
                          number_text(Unit::signed_points, answer.net_points_per_game) +
                          ", place of 100 " + number_text(Unit::place, answer.place) + ": ";
  if (answer.families.empty()) return now + "no family to chart.";
  const NextFamily& first = answer.families.front();
  return now + "chart " + first.label + " next; " + more_of(answer) +
         " of it would bring the interval of net points a game from " +
         half_of(Unit::points, answer.net_points_per_game) + " to " +
         half(Unit::points, first.points_after) + ", that of the place from " +
         half_of(Unit::place, answer.place) + " to " + half(Unit::place, first.place_after) + ".";
}

}  // namespace

std::string next_text(const NextAnswer& answer) {
  Table table({{"family", Align::left, 30},
               {"calls"},
               {"snaps"},
               {"of points"},
               {"then"},
               {"of fit"},
               {"then"}});
  for (const NextFamily& family : answer.families)
    table.add({family.label, percent(family.call_share),
               family.snaps > 0 ? fixed(family.snaps, 0) : "unseen",
               percent(family.share_of_points), half(Unit::points, family.points_after),
               percent(family.share_of_fit), half(Unit::place, family.place_after)});
  return wrapped(head(answer)) + tape_line(answer.about) + '\n' + table.text() +
         wrapped(
             "of points, of fit: the part of the variance of net points and of fit that knowing "
             "the "
             "family exactly would take away; then: half the width of the "
             "90% interval, of net points a game and of the place of 100, with " +
             more_of(answer) + " of the family; " + net_points_meaning);
}

}  // namespace callfit

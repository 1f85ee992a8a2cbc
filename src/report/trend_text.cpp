#include <callfit/report/answer_text.hpp>

#include "report/phrases.hpp"

namespace callfit {
namespace {

std::string after(const TrendStepAnswer& step) { return step.game.empty() ? "before" : step.game; }

// One table a followed number: long names stay readable at 100 columns.
std::string followed_table(const TrendAnswer& answer, std::size_t which) {
  const FollowedAnswer& followed = answer.followed[which];
  const Unit unit = unit_of_measure(followed.in_yards);
  Table table({{"  after", Align::left, 30}, {"value (90% interval)"}});
  for (const TrendStepAnswer& step : answer.steps)
    table.add({"  " + after(step), number_text(unit, step.followed.at(which))});
  return '\n' + followed.family + ", " + followed.label + ", usual " +
         value_text(unit, followed.usual) + '\n' + table.text();
}

std::string head(const TrendAnswer& answer) {
  return stand_text(answer.about) + ": " +
         (answer.held ? "the first answer held, every value still lies within its first interval."
                      : "the first answer did not hold, a value has left its first interval.");
}

}  // namespace

std::string trend_text(const TrendAnswer& answer) {
  Table table({{"after", Align::left, 30},
               {"snaps"},
               {"effective"},
               {"place of 100 (90%)"},
               {"net points per drive (90%)"}});
  for (const TrendStepAnswer& step : answer.steps)
    table.add({after(step), fixed(step.snaps, 0), fixed(step.effective_snaps, 0),
               number_text(Unit::place, step.place),
               number_text(Unit::signed_points, step.net_points_per_drive)});
  std::string text = wrapped(head(answer)) + tape_line(answer.about) + '\n' + table.text() +
                     net_points_meaning + '\n';
  for (std::size_t w = 0; w < answer.followed.size(); ++w) text += followed_table(answer, w);
  return text;
}

}  // namespace callfit

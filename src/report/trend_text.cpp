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

constexpr std::size_t few_verdicts = 50;

std::string kept_text(const KeptScore& score) {
  const auto count = static_cast<double>(score.outcomes.size());
  if (score.outcomes.empty())
    return '\n' + wrapped("Of what was said before, nothing was charted often enough to score it.");
  Table table({{"said", Align::left, 10},
               {"of what", Align::left, 34},
               {"asked"},
               {"odds"},
               {"season"},
               {"for so many"},
               {"came"}});
  for (const KeptOutcome& outcome : score.outcomes)
    table.add({outcome.date, outcome.said.family_label + ", " + outcome.said.label,
               (outcome.said.more_is_better ? "≥ " : "≤ ") + percent(outcome.said.asked),
               percent(outcome.said.odds), counted(outcome.made, outcome.of), percent(outcome.odds),
               outcome.came == 0.5 ? "on the line"
               : outcome.came > 0  ? "yes"
                                   : "no"});
  std::string text =
      "\nWhat was said, held against the season\n" + table.text() +
      wrapped(capital(kept_groups_text(score)) + ". Brier score " + fixed(score.brier, 3) + "; " +
              fixed(score.expected_brier, 3) +
              " is what odds that are right would have, 0.250 what a coin would.") +
      wrapped(
          "odds: that his true rate reaches what is asked; for so many: that a count of so many "
          "snaps does, which is what can be seen.");
  if (score.outcomes.size() < few_verdicts)
    text += wrapped(fixed(count, 0) + " verdicts say little about how good the odds are.");
  return text;
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
  if (answer.kept) text += kept_text(*answer.kept);
  return text;
}

}  // namespace callfit

#include <callfit/report/answer_text.hpp>

#include "report/phrases.hpp"

#include <algorithm>

namespace callfit {
namespace {

std::string entries_table(const CompareAnswer& answer) {
  Table table({{"quarterback", Align::left, 20},
               {"scheme", Align::left, 20},
               {"place"},
               {"90%"},
               {"points"},
               {"net"},
               {"90%"},
               {"best"}});
  for (const EntryAnswer& entry : answer.entries)
    table.add({entry.about.quarterback, entry.about.scheme,
               value_text(Unit::place, entry.place.centre), range_text(Unit::place, entry.place),
               value_text(Unit::points, entry.points.centre),
               value_text(Unit::signed_points, entry.net_points.centre),
               range_text(Unit::signed_points, entry.net_points), percent(entry.odds_best)});
  return table.text();
}

std::string tapes(const CompareAnswer& answer) {
  std::string text;
  std::vector<std::string> told;
  for (const EntryAnswer& entry : answer.entries) {
    const std::string& name = entry.about.quarterback;
    if (std::find(told.begin(), told.end(), name) != told.end()) continue;
    told.push_back(name);
    text += wrapped(name + ", " + tape_line(entry.about));
  }
  return text;
}

std::string poor_shortcuts(const CompareAnswer& answer) {
  std::string text;
  for (const EntryAnswer& entry : answer.entries)
    if (entry.method.all_exact)
      text += wrapped(stand_text(entry.about) + ": " + method_line(entry.method));
  return text;
}

}  // namespace

std::string compare_text(const CompareAnswer& answer) {
  std::string text;
  for (const DifferenceAnswer& difference : answer.differences)
    text += wrapped(difference_sentence(difference));
  if (answer.differences.empty() && !answer.entries.empty())
    text = wrapped(stand_text(answer.entries.front().about) + ", nothing to compare with.");
  text += tapes(answer) + '\n' + entries_table(answer) +
          wrapped(
              "place: of 100 quarterbacks of this level, how many fit the scheme worse; points, "
              "net: per drive, a game has " +
              fixed(answer.drives_per_game, 1) + " drives; " + net_points_meaning +
              "; best: share of the draws in which it has the most net points of all rows");
  if (!answer.differences.empty())
    text += seed_line(answer.differences.front().net_points_per_game, Unit::points,
                      "the difference in net points a game");
  return text + poor_shortcuts(answer);
}

}  // namespace callfit

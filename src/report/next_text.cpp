#include <callfit/report/answer_text.hpp>

#include "report/phrases.hpp"

#include <algorithm>

namespace callfit {
namespace {

std::string half(Unit unit, double width) { return "±" + value_text(unit, width); }

std::string half_of(Unit unit, const Number& number) {
  return half(unit, (number.high - number.low) / 2);
}

std::string more_of(const NextAnswer& answer) {
  return fixed(answer.more_snaps, 0) + " more snaps";
}

std::string minutes(double film) { return fixed(film, film < 9.95 ? 1 : 0) + " min"; }

std::string film_of_first(const NextFamily& first) {
  if (!first.film_minutes) return "";
  return " At the rate at which they came so far they lie on " + minutes(*first.film_minutes) +
         " of film.";
}

bool has_film(const NextAnswer& answer) {
  return std::any_of(answer.families.begin(), answer.families.end(),
                     [](const NextFamily& family) { return family.film_minutes.has_value(); });
}

std::vector<Column> columns_of(const NextAnswer& answer) {
  std::vector<Column> columns{{"family", Align::left, 30},
                              {"calls"},
                              {"snaps"},
                              {"of points"},
                              {"then"},
                              {"of fit"},
                              {"then"}};
  if (has_film(answer)) columns.push_back({"film"});
  return columns;
}

std::vector<std::string> cells_of(const NextFamily& family) {
  std::vector<std::string> cells{family.label,
                                 percent(family.call_share),
                                 family.snaps > 0 ? fixed(family.snaps, 0) : "unseen",
                                 percent(family.share_of_points),
                                 half(Unit::points, family.points_after),
                                 percent(family.share_of_fit),
                                 half(Unit::place, family.place_after)};
  if (family.film_minutes) cells.push_back(minutes(*family.film_minutes));
  return cells;
}

std::string legend(const NextAnswer& answer) {
  std::string legend =
      "of points, of fit: the part of the variance of net points and of fit that knowing the "
      "family exactly would take away; then: half the width of the 90% interval, of net points a "
      "game and of the place of 100, with " +
      more_of(answer) + " of the family; ";
  if (has_film(answer))
    legend +=
        "film: what lies between the first and the last of so many snaps, at the rate at "
        "which the family came on the charted film; ";
  return legend + net_points_meaning;
}

}  // namespace

std::string next_words(const NextAnswer& answer) {
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
         half_of(Unit::place, answer.place) + " to " + half(Unit::place, first.place_after) + "." +
         film_of_first(first);
}

std::string next_text(const NextAnswer& answer) {
  Table table(columns_of(answer));
  for (const NextFamily& family : answer.families) table.add(cells_of(family));
  return wrapped(next_words(answer)) + tape_line(answer.about) + '\n' + table.text() +
         wrapped(legend(answer));
}

}  // namespace callfit

#include <callfit/report/number_text.hpp>
#include <callfit/report/quarterbacks_report.hpp>
#include <callfit/report/table.hpp>

namespace callfit {
namespace {

std::string with_error(double value, double error) {
  return fixed(value, 2) + " (" + fixed(error, 2) + ")";
}

std::string same_season_text(const SameSeason& same) {
  std::string text = wrapped(
      "Points per drive, each less its season's mean, of " + std::to_string(same.seasons) +
      " seasons of " + std::to_string(same.quarterbacks) +
      " quarterbacks with 200 dropbacks: the model's of the season's own rates, in the setting's "
      "average scheme, beside those that his drives made. Correlation " +
      fixed(same.correlation, 3) + ", with what starts are worth " +
      fixed(same.correlation_with_start, 3) + "; slope " +
      with_error(same.slope, same.slope_error) + ", with starts given " +
      with_error(same.slope_with_start, same.slope_with_start_error) + ".");
  if (same.weights.empty()) return text;
  Table table({{"", Align::left, 30}, {"spread"}, {"weight"}});
  for (const PartWeight& part : same.weights)
    table.add({plain(word(part.part)), fixed(part.spread, 3),
               with_error(part.weight, part.standard_error)});
  return text + "\n" + table.text() +
         wrapped(
             "Weights in a regression on all parts (standard error by man): 1 where the model "
             "is right. Correlation " +
             fixed(same.correlation_of_parts, 3) + ".");
}

std::string spread_text(const SpreadReport& spread) {
  const auto carried = [&](PlaceChange change) {
    return fixed(spread.carried[static_cast<std::size_t>(change)], 3);
  };
  return wrapped(
      "Standard deviation, points per drive: real seasons " + fixed(spread.real, 3) +
      " with sampling taken out; quarterbacks of the population " + fixed(spread.population, 3) +
      ", of which handoffs alone " + fixed(spread.handoffs, 3) +
      ". Of a man of whom all was known, known in the next season " +
      carried(PlaceChange::same_caller) + " under the same caller, " +
      carried(PlaceChange::new_caller) + " under a new one, " + carried(PlaceChange::new_team) +
      " in a new team. Surroundings " + fixed(spread.surroundings, 3) +
      "; what the model leaves and comes back with the "
      "same team " +
      fixed(spread.comes_back, 3) + " (" + std::to_string(spread.pairs) + " pairs of seasons).");
}

void add(Table& table, const std::string& name, const Foretold& foretold) {
  if (!(foretold.expected_spread > 0)) return;
  table.add({name, std::to_string(foretold.seasons), fixed(foretold.correlation, 2),
             with_error(foretold.slope, foretold.slope_error), fixed(foretold.expected_spread, 3),
             foretold.miss_ratio > 0 ? fixed(foretold.miss_ratio, 2) : ""});
}

Table foretold_table(const std::string& by) {
  return Table(
      {{by, Align::left, 30}, {"seasons"}, {"correlation"}, {"slope"}, {"spread"}, {"miss"}});
}

std::string first_eight_text(const RestOfSeason& rest) {
  if (!(rest.rates.expected_spread > 0)) return "";
  Table table = foretold_table("First eight games, the rest's");
  add(table, "own rates in the model", rest.rates);
  add(table, "points", rest.points);
  return table.text() +
         wrapped(
             "Points of the rest: the season's less what the model makes of the first eight "
             "games' own rates and the season's handoffs, since nobody counted points by game.") +
         "\n";
}

std::string foretold_text(const PointsReport& report) {
  Table table = foretold_table("The season before");
  add(table, "all", report.next_season);
  add(table, "same team", report.same_team);
  add(table, "new team", report.new_team);
  return table.text() +
         wrapped(
             "Spread is of what was expected; miss is what the points missed it by, over what "
             "they were expected to.");
}

std::string bands_text(const std::vector<OddsBand>& bands) {
  Table table({{"Odds of the one ahead", Align::left, 30},
               {"pairs"},
               {"mean odds"},
               {"came true"},
               {"standard error"}});
  for (const OddsBand& band : bands)
    table.add({fixed(band.low, 2) + "-" + fixed(band.high, 2), fixed(band.pairs, 0),
               fixed(100 * band.odds, 1) + "%", fixed(100 * band.came_true, 1) + "%",
               fixed(100 * band.standard_error, 1) + "%"});
  return table.text();
}

std::string odds_text(const OddsReport& odds) {
  std::string text = bands_text(odds.tenths) + "\n" + bands_text(odds.verdicts);
  if (odds.brier > 0)
    text += wrapped("Brier score " + fixed(odds.brier, 4) +
                    "; of a logistic regression on the gap of the season before, fitted to the "
                    "other seasons, " +
                    fixed(odds.regression_brier, 4) + " (standard error of the difference " +
                    fixed(odds.brier_difference_error, 4) + ").");
  return text;
}

}  // namespace

std::string season_points_text(const PointsReport& report) {
  std::string text = same_season_text(report.same_season) + "\n" + spread_text(report.spread) +
                     "\n" + first_eight_text(report.first_eight);
  if (report.odds.pairs > 0) text += foretold_text(report) + "\n" + odds_text(report.odds);
  return text;
}

}  // namespace callfit

#include <reader/numbers.hpp>

#include <callfit/report/number_text.hpp>
#include <callfit/report/turning_text.hpp>
#include <report/phrases.hpp>

namespace callfit {
namespace {

std::string demand_text(const DemandAnswer& demand) {
  const Unit unit = unit_of_measure(demand.in_yards);
  return number_text(unit, demand.estimate) + ", asked " + value_text(unit, demand.asked) + ": " +
         reach_odds_words(demand.reaches);
}

void add_difference(const DifferenceAnswer& against, std::vector<Shown::Row>& rows) {
  rows.push_back({"Net points a game, his less " + against.second + "'s",
                  number_text(Unit::signed_points, against.net_points_per_game), ""});
  rows.push_back(
      {"Odds that he is ahead of " + against.second, odds_words(against.ahead.odds), ""});
}

}  // namespace

std::vector<Shown::Row> reader_rows(const FitScene& scene) {
  std::vector<Shown::Row> rows{{"Of 100 quarterbacks of this level, fit it worse",
                                number_text(Unit::place, scene.fit.place), ""}};
  if (scene.against) add_difference(*scene.against, rows);
  for (const DemandAnswer& demand : scene.fit.demands)
    rows.push_back({capital(scene.fit.families[demand.family].label) + ", " + demand.label,
                    demand_text(demand), ""});
  return rows;
}

std::string reader_effect(Study& study, const Stand& stand) {
  Stand start = stand;
  start.changes.clear();
  const auto answer =
      std::get<TryAnswer>(study.answer(TryRequest{start, {Try{"", stand.changes}}}));
  return try_words(answer.tries.front()) + " " + place_words(answer.tries.front());
}

}  // namespace callfit

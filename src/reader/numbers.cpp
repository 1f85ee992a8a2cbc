#include <reader/numbers.hpp>

#include <callfit/report/number_text.hpp>
#include <callfit/report/turning_text.hpp>
#include <report/phrases.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

std::string demand_text(const DemandAnswer& demand) {
  const Unit unit = unit_of_measure(demand.in_yards);
  return number_text(unit, demand.estimate) + ", asked " + value_text(unit, demand.asked) + ": " +
         reach_odds_words(demand.reaches);
}

// What a strip shows from end to end.
struct Scale {
  double from = 0, to = 1;

  double place_of(double value) const {
    return std::clamp(100 * (value - from) / (to - from), 0.0, 100.0);
  }
  Shown::Strip strip_of(const Number& number) const {
    return {place_of(number.low), place_of(number.centre), place_of(number.high)};
  }
};

double farthest(const Number& number) {
  return std::max(std::abs(number.low), std::abs(number.high));
}

// Zero in the middle, and room for what is turned.
Scale around_zero(double reach) {
  constexpr double room = 1.5;
  return {-room * reach, room * reach};
}

Scale scale_of_net(const FitScene& began) {
  constexpr double least = 0.5;  // net points a game
  return around_zero(std::max(farthest(began.against->net_points_per_game), least));
}

// One for all demands, as in the picture: spreads from what is asked, no farther than it goes
// there.
Scale scale_of_demands(const FitScene& began) {
  constexpr double least = 1, most = 4;
  double reach = least;
  for (const DemandAnswer& demand : began.fit.demands)
    reach = std::max(reach, farthest(demand.short_by));
  return around_zero(std::min(reach, most));
}

void add_difference(const DifferenceAnswer& against, const FitScene& began,
                    std::vector<Shown::Row>& rows) {
  const Scale net = scale_of_net(began), odds;
  const double ahead = odds.place_of(against.ahead.odds);
  rows.push_back({"Net points a game, his less " + against.second + "'s",
                  number_text(Unit::signed_points, against.net_points_per_game), "",
                  net.strip_of(against.net_points_per_game), net.place_of(0)});
  rows.push_back({"Odds that he is ahead of " + against.second,
                  odds_words(against.ahead.odds),
                  "",
                  {ahead, ahead, ahead},
                  odds.place_of(0.5)});
}

}  // namespace

std::vector<Shown::Row> reader_rows(const FitScene& scene, const FitScene& began) {
  const Scale hundred{0, 100}, demands = scale_of_demands(began);
  std::vector<Shown::Row> rows{{"Of 100 quarterbacks of this level, fit it worse",
                                number_text(Unit::place, scene.fit.place), "",
                                hundred.strip_of(scene.fit.place), hundred.place_of(50)}};
  if (scene.against) add_difference(*scene.against, began, rows);
  for (const DemandAnswer& demand : scene.fit.demands)
    rows.push_back({capital(scene.fit.families[demand.family].label) + ", " + demand.label,
                    demand_text(demand), "", demands.strip_of(scaled(demand.short_by, -1)),
                    demands.place_of(0)});
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

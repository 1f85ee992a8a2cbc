#include "report/season_points_json.hpp"

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

Json same_season_json(const SameSeason& same) {
  Json weights = Json::array();
  for (const PartWeight& part : same.weights)
    weights.push_back({{"part", word(part.part)},
                       {"spread", part.spread},
                       {"weight", part.weight},
                       {"standard_error", part.standard_error}});
  Json json{{"seasons", same.seasons},
            {"quarterbacks", same.quarterbacks},
            {"real_spread", same.real_spread},
            {"sampling_spread", same.sampling_spread},
            {"model_spread", same.model_spread},
            {"correlation", same.correlation},
            {"slope", same.slope},
            {"slope_standard_error", same.slope_error},
            {"correlation_with_start", same.correlation_with_start},
            {"slope_with_start", same.slope_with_start},
            {"slope_with_start_standard_error", same.slope_with_start_error},
            {"correlation_of_first_order_with_exact", same.gradient_correlation}};
  if (!same.weights.empty()) {
    json["correlation_of_regression_on_parts"] = same.correlation_of_parts;
    json["weights"] = weights;
  }
  for (const SeasonBesideModel& one : same.each)
    json["each"].push_back({{"quarterback", one.quarterback},
                            {"season", one.season},
                            {"points", one.points},
                            {"model", one.model}});
  return json;
}

Json spread_json(const SpreadReport& spread) {
  const auto carried = [&](PlaceChange change) {
    return spread.carried[static_cast<std::size_t>(change)];
  };
  return {{"real", spread.real},
          {"population", spread.population},
          {"handoffs", spread.handoffs},
          {"carried",
           {{"same_caller", carried(PlaceChange::same_caller)},
            {"new_caller", carried(PlaceChange::new_caller)},
            {"new_team", carried(PlaceChange::new_team)}}},
          {"surroundings", spread.surroundings},
          {"comes_back", spread.comes_back},
          {"pairs", spread.pairs}};
}

Json foretold_json(const Foretold& foretold) {
  Json json{{"seasons", foretold.seasons},
            {"correlation", foretold.correlation},
            {"slope", foretold.slope},
            {"slope_standard_error", foretold.slope_error},
            {"expected_spread", foretold.expected_spread}};
  if (foretold.miss_ratio > 0) json["miss_over_expected_miss"] = foretold.miss_ratio;
  return json;
}

Json bands_json(const std::vector<OddsBand>& bands) {
  Json json = Json::array();
  for (const OddsBand& band : bands)
    json.push_back({{"low", band.low},
                    {"high", band.high},
                    {"pairs", band.pairs},
                    {"mean_odds", band.odds},
                    {"came_true", band.came_true},
                    {"standard_error", band.standard_error}});
  return json;
}

Json odds_json(const OddsReport& odds) {
  Json json{{"pairs", odds.pairs},
            {"quarterbacks", odds.quarterbacks},
            {"tenths", bands_json(odds.tenths)},
            {"verdicts", bands_json(odds.verdicts)}};
  if (odds.brier > 0) {
    json["brier"] = odds.brier;
    json["regression_on_gap_brier"] = odds.regression_brier;
    json["brier_difference_standard_error"] = odds.brier_difference_error;
  }
  return json;
}

}  // namespace

Json season_points_json(const PointsReport& report) {
  Json json{{"same_season", same_season_json(report.same_season)},
            {"spread", spread_json(report.spread)}};
  if (report.first_eight.rates.expected_spread > 0)
    json["first_eight"] = {{"rest_rates", foretold_json(report.first_eight.rates)},
                           {"rest_points", foretold_json(report.first_eight.points)}};
  if (report.odds.pairs == 0) return json;
  json["next_season"] = foretold_json(report.next_season);
  json["next_season"]["same_team"] = foretold_json(report.same_team);
  json["next_season"]["new_team"] = foretold_json(report.new_team);
  json["odds"] = odds_json(report.odds);
  return json;
}

}  // namespace callfit

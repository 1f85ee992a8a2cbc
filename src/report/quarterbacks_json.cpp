#include "report/quarterbacks_json.hpp"

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

Json gains_json(const PredictionScore& score) {
  return {{"league", score.league.per_1000},
          {"raw", score.raw.per_1000},
          {"independent", score.independent.per_1000}};
}

Json errors_json(const PredictionScore& score) {
  return {{"league", score.league.standard_error},
          {"raw", score.raw.standard_error},
          {"independent", score.independent.standard_error}};
}

Json coverage_json(const Predictions& predictions) {
  Json json{{"overall", predictions.coverage90.share()}, {"n", predictions.coverage90.of}};
  Json rates = Json::object();
  for (const RatePredictions& rate : predictions.rates)
    if (rate.coverage90.of > 0) rates[std::string(word(rate.rate))] = rate.coverage90.share();
  json["rates"] = rates;
  Json groups = Json::array();
  for (const SnapGroup& group : predictions.groups) {
    if (group.seasons == 0) continue;
    Json entry{{"least_dropbacks", group.least_dropbacks}};
    if (group.most_dropbacks > 0) entry["most_dropbacks"] = group.most_dropbacks;
    entry["seasons"] = group.seasons;
    entry["n"] = group.coverage90.of;
    entry["share"] = group.coverage90.share();
    groups.push_back(entry);
  }
  json["by_dropbacks_before"] = groups;
  return json;
}

Json rate_json(const RatePredictions& rate) {
  return {{"rate", word(rate.rate)},
          {"trials", rate.score.trials},
          {"log_score_gain_per_1000_trials", gains_json(rate.score)},
          {"standard_error", errors_json(rate.score)},
          {"coverage90", rate.coverage90.share()},
          {"n", rate.coverage90.of}};
}

Json predictions_json(const Predictions& predictions) {
  Json rates = Json::array();
  for (const RatePredictions& rate : predictions.rates)
    if (rate.coverage90.of > 0) rates.push_back(rate_json(rate));
  return {{"seasons", predictions.seasons},
          {"quarterbacks", predictions.quarterbacks},
          {"trials", predictions.score.trials},
          {"log_score_gain_per_1000_trials", gains_json(predictions.score)},
          {"standard_error", errors_json(predictions.score)},
          {"coverage90", coverage_json(predictions)},
          {"rates", rates}};
}

}  // namespace

Json quarterbacks_json(const QuarterbackReport& report) {
  Json within = predictions_json(report.first_four);
  within["first_games"] = 4;
  if (report.first_eight.seasons > 0) {
    within["first_eight"] = predictions_json(report.first_eight);
    within["first_eight"]["first_games"] = 8;
  }
  Json json{{"source", report.source},
            {"games", report.games},
            {"seasons", report.seasons},
            {"quarterbacks", report.quarterbacks},
            {"within_season", within}};
  if (report.next_season.seasons > 0) json["next_season"] = predictions_json(report.next_season);
  return json;
}

}  // namespace callfit

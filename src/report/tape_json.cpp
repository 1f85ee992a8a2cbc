#include "report/tape_json.hpp"

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

Json worth_json(const TapeWorth& worth) {
  return {{"share_of_variance", worth.share.first},
          {"standard_error", worth.share.standard_error},
          {"narrowing", worth.narrowing}};
}

Json followed_json(const Followed& followed, const UncertainValue& value, const Setting& setting) {
  Json json{{"family", setting.families[followed.family].id}, {"measure", word(followed.measure)}};
  if (followed.cell) json["when"] = word(*followed.cell);
  json.update(to_json(value));
  return json;
}

}  // namespace

Json charting_json(const ChartingAdvice& advice, const Setting& setting) {
  Json rows = Json::array();
  for (const ChartingRow& row : advice.rows)
    rows.push_back({{"family", setting.families[row.family].id},
                    {"snaps", row.snaps},
                    {"call_share", row.call_share},
                    {"net_points", worth_json(row.net_points)},
                    {"fit", worth_json(row.fit)}});
  return {{"more_snaps", more_snaps},
          {"net_points_interval90", to_json(advice.net_points90)},
          {"fit_interval90", to_json(advice.fit90)},
          {"families", rows}};
}

Json trend_json(const std::vector<TrendStep>& steps, const std::vector<Followed>& followed,
                const Setting& setting) {
  Json rows = Json::array();
  for (const TrendStep& step : steps) {
    Json values = Json::array();
    for (std::size_t w = 0; w < followed.size(); ++w)
      values.push_back(followed_json(followed[w], step.followed[w], setting));
    rows.push_back({{"game", step.game},
                    {"snaps", step.snaps},
                    {"effective_snaps", step.effective_snaps},
                    {"fit", to_json(step.fit)},
                    {"net_points", to_json(step.net_points)},
                    {"followed", values}});
  }
  return {{"first_answer_held", first_answer_held(steps)}, {"steps", rows}};
}

Json population_json(const PopulationFit& fit, const Setting& setting) {
  Json rows = Json::array();
  for (const RatePopulationFit& rate : fit.rates) {
    Json row{{"family", setting.families[rate.family].id},
             {"rate", word(rate.rate)},
             {"quarterbacks", rate.quarterbacks},
             {"snaps", rate.snaps}};
    if (rate.fit)
      row.update(Json{{"mean", rate.fit->mean},
                      {"mean90", to_json(rate.fit->mean90)},
                      {"spread", rate.fit->spread},
                      {"spread90", to_json(rate.fit->spread90)},
                      {"told_apart", rate.fit->told_apart()}});
    rows.push_back(row);
  }
  return {{"snaps", fit.snaps}, {"other_levels", fit.other_levels}, {"rates", rows}};
}

Json fitted_setting(const PopulationFit& fit, const Setting& setting, const std::string& id,
                    const std::string& based_on) {
  Json families = Json::object();
  for (const RatePopulationFit& rate : fit.rates) {
    if (!rate.fit) continue;
    const FamilyPopulation& family = setting.families[rate.family];
    const auto r = static_cast<std::size_t>(rate.rate);
    const RatePopulation fitted = rate.better_than(*family.rates[r]);
    Json entry{{"mean", fitted.mean}, {"spread", fitted.spread}, {"n", rate.snaps}};
    entry["source"] = "charts";
    if (!rate.fit->told_apart()) entry["spread_source"] = "assumed";
    families[family.id]["rates"][std::string(word(rate.rate))] = entry;
  }
  return {{"format", "callfit-setting/1"},
          {"id", id},
          {"label", setting.label + ", rates from charts"},
          {"based_on", based_on},
          {"sources", {{"charts", "fitted to charts by marginal likelihood (callfit setting)"}}},
          {"families", families}};
}

}  // namespace callfit

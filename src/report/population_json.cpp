#include "report/population_json.hpp"

#include <nlohmann/json.hpp>

namespace callfit {

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
          {"sources",
           {{"charts", "fitted to charts by marginal likelihood (callfit read --as setting)"}}},
          {"families", families}};
}

}  // namespace callfit

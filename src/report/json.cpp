#include "report/json.hpp"

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

Json demand_json(const DemandResult& result, const Interval& interval, const BoundScheme& bound) {
  const Demand& demand = bound.scheme.demands[result.demand];
  Json json{{"family", bound.scheme.families[result.family].id}, {"measure", word(demand.measure)}};
  if (demand.cell) json["when"] = word(*demand.cell);
  json.update(Json{{"level", result.level},
                   {"more_is_better", demand.more_is_better},
                   {"estimate", result.estimate},
                   {"interval90", to_json(interval)},
                   {"shortfall", result.shortfall},
                   {"surplus", result.surplus},
                   {"weight", result.weight},
                   {"contribution", result.contribution}});
  return json;
}

Json unused_json(const UnusedStrength& strength, const Setting& setting) {
  return {{"family", setting.families[strength.family].id},
          {"measure", word(strength.measure)},
          {"estimate", strength.estimate},
          {"population", strength.population},
          {"surplus", strength.surplus},
          {"call_share", strength.call_share}};
}

Json sampled_json(const SampledValues& sampled) {
  return {{"drives", sampled.drives},
          {"mean", to_json(sampled.mean)},
          {"standard_error", to_json(sampled.standard_error)}};
}

}  // namespace

Json to_json(const Interval& interval) { return Json::array({interval.low, interval.high}); }

Json to_json(const UncertainValue& value) {
  return {{"value", value.value}, {"interval90", to_json(value.interval90)}};
}

Json to_json(const DriveValues& values) {
  Json shares = Json::object();
  for (std::size_t i = 0; i < drive_result_count; ++i)
    shares[std::string(word(static_cast<DriveResult>(i)))] = values.share[i];
  return {{"points", values.points},
          {"net_points", values.net_points},
          {"results", shares},
          {"first_downs", values.first_downs},
          {"plays", values.plays}};
}

Json to_json(const Difference& difference) {
  return {{"points_per_drive", to_json(difference.points_per_drive)},
          {"points_per_game", to_json(difference.points_per_game)},
          {"net_points_per_drive", to_json(difference.net_per_drive)},
          {"net_points_per_game", to_json(difference.net_per_game)},
          {"chance_first_better", difference.chance_first_better}};
}

Json to_json(const Worth& worth) {
  return {{"points_per_drive", to_json(worth.points)},
          {"net_points_per_drive", to_json(worth.net_points)}};
}

Json fit_json(const FitReport& report, const BoundScheme& bound, const Setting& setting) {
  Json demands = Json::array();
  for (std::size_t i = 0; i < report.at_mean.demands.size(); ++i)
    demands.push_back(demand_json(report.at_mean.demands[i], report.estimate90[i], bound));
  Json shares = Json::object();
  for (std::size_t f = 0; f < bound.scheme.families.size(); ++f)
    shares[bound.scheme.families[f].id] = bound.call_share[f];
  Json unused = Json::array();
  for (const UnusedStrength& strength : report.unused)
    unused.push_back(unused_json(strength, setting));
  return {{"fit", report.at_mean.fit},
          {"fit_median", report.fit_median},
          {"fit_interval90", to_json(report.fit90)},
          {"distance_squared", report.at_mean.distance_squared},
          {"share_of_population_that_fits_worse", report.worse_share},
          {"call_shares", shares},
          {"demands", demands},
          {"unused_strengths", unused}};
}

Json drives_json(const DrivesReport& report, const Scheme& scheme) {
  Json json;
  if (report.start)
    json["start"] = Json{{"down", report.start->down},
                         {"to_go", report.start->to_go},
                         {"yards_to_goal", report.start->yards_to_goal}};
  json["exact"] = to_json(report.exact);
  json["points_per_game"] = report.exact.points * report.drives_per_game;
  json["drives_per_game"] = report.drives_per_game;
  if (report.sampled) json["sampled"] = sampled_json(*report.sampled);
  Json visits = Json::object();
  for (std::size_t s = 0; s < report.situation_visits.size(); ++s)
    visits[scheme.situations[s].id] = report.situation_visits[s];
  json["situation_visits_per_drive"] = visits;
  return json;
}

Json comparison_json(const ComparisonReport& report) {
  Json entries = Json::array();
  for (const Entry& entry : report.entries) {
    Json json{{"profile", entry.profile},
              {"scheme", entry.scheme},
              {"fit", entry.fit.at_mean.fit},
              {"fit_median", entry.fit.fit_median},
              {"fit_interval90", to_json(entry.fit.fit90)},
              {"share_of_population_that_fits_worse", entry.fit.worse_share}};
    json.update(to_json(entry.worth));
    json["chance_best"] = entry.chance_best;
    entries.push_back(std::move(json));
  }
  Json json{{"entries", entries}, {"drives_per_game", report.drives_per_game}};
  if (report.first_two) json["first_minus_second"] = to_json(*report.first_two);
  return json;
}

}  // namespace callfit

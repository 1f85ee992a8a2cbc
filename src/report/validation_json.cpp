#include "report/validation_json.hpp"

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

const char* word_of(ValueUnit unit) {
  switch (unit) {
    case ValueUnit::share:
      return "share";
    case ValueUnit::points:
      return "points";
    case ValueUnit::plays:
      return "plays";
  }
  return "";
}

Json results_json(const DrivesCompared& row) {
  Json json = Json::object();
  for (std::size_t r = 0; r < drive_result_count; ++r)
    json[std::string(word(static_cast<DriveResult>(r)))] = {{"model", row.model.share[r]},
                                                            {"data", row.observed.share[r]},
                                                            {"se", row.observed.share_error(r)}};
  return json;
}

Json plays_json(const DrivesCompared& row) {
  Json json{{"model", row.model.plays}, {"data", row.observed.plays}};
  if (row.observed.plays_se > 0) json["se"] = row.observed.plays_se;
  return json;
}

Json start_json(const DrivesCompared& row) {
  return {{"start", row.observed.start},
          {"yards_to_goal", {row.observed.yards_to_goal.low, row.observed.yards_to_goal.high}},
          {"n", row.observed.n},
          {"points",
           {{"model", row.model.points},
            {"data", row.observed.points},
            {"se", row.observed.points_se}}},
          {"plays", plays_json(row)},
          {"results", results_json(row)}};
}

/// All drives, and beside them those of every start.
Json drives_json(const ValidationReport& report) {
  if (report.drives.empty()) return Json::object();
  Json json = start_json(report.drives.front());
  Json starts = Json::array();
  for (auto row = report.drives.begin() + 1; row != report.drives.end(); ++row)
    starts.push_back(start_json(*row));
  json["by_start"] = starts;
  json["starts_unknown"] = report.starts_unknown;
  Json left_out = Json::array();
  for (const LeftOut& entry : report.left_out)
    left_out.push_back({{"reason", entry.reason}, {"n", entry.n}});
  json["left_out"] = left_out;
  return json;
}

Json value_json(const ValueCompared& row) {
  Json json{{"label", row.label}};
  if (row.n > 0) json["n"] = row.n;
  json.update(Json{{"model", row.model}, {"data", row.observed}});
  if (row.standard_error > 0) json["se"] = row.standard_error;
  json["difference"] = row.difference();
  return json;
}

Json values_json(const ValuesCompared& values) {
  Json rows = Json::array();
  for (const ValueCompared& row : values.rows) rows.push_back(value_json(row));
  return {{"id", values.id},
          {"title", values.title},
          {"counts", values.counts},
          {"unit", word_of(values.unit)},
          {"rows", rows}};
}

Json target_json(const Target& target) {
  Json json{{"what", target.what},
            {"unit", word_of(target.unit)},
            {"relative", target.relative},
            {"allowed", target.allowed},
            {"rows", target.rows}};
  if (target.has_data())
    json.update(Json{{"worst", target.worst},
                     {"where", target.where},
                     {"missed", target.missed},
                     {"met", target.met()}});
  if (target.by_chance)
    json.update(Json{{"by_chance", *target.by_chance}, {"beyond", target.beyond}});
  return json;
}

}  // namespace

Json validation_json(const ValidationReport& report) {
  Json values = Json::array();
  for (const ValuesCompared& table : report.values) values.push_back(values_json(table));
  Json targets = Json::array();
  for (const Target& target : report.targets) targets.push_back(target_json(target));
  return {{"setting", report.setting}, {"about", report.about},         {"source", report.source},
          {"targets", targets},        {"drives", drives_json(report)}, {"values", values}};
}

}  // namespace callfit

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

Json results_json(const std::array<double, drive_result_count>& share) {
  Json json = Json::object();
  for (std::size_t r = 0; r < drive_result_count; ++r)
    json[std::string(word(static_cast<DriveResult>(r)))] = share[r];
  return json;
}

Json drives_json(const DrivesCompared& row) {
  return {{"start", row.observed.start},
          {"yards_to_goal", {row.observed.yards_to_goal.low, row.observed.yards_to_goal.high}},
          {"n", row.observed.n},
          {"model",
           {{"points", row.model.points},
            {"plays", row.model.plays},
            {"results", results_json(row.model.share)}}},
          {"observed",
           {{"points", row.observed.points},
            {"points_standard_error", row.observed.points_se},
            {"plays", row.observed.plays},
            {"results", results_json(row.observed.share)}}}};
}

Json value_json(const ValueCompared& row) {
  Json json{{"label", row.label}};
  if (row.n > 0) json["n"] = row.n;
  json.update(Json{{"model", row.model}, {"observed", row.observed}});
  if (row.standard_error > 0) json["standard_error"] = row.standard_error;
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
  return {
      {"what", target.what},       {"unit", word_of(target.unit)}, {"relative", target.relative},
      {"allowed", target.allowed}, {"worst", target.worst},        {"where", target.where},
      {"rows", target.rows},       {"missed", target.missed},      {"met", target.met()}};
}

}  // namespace

Json validation_json(const ValidationReport& report) {
  Json drives = Json::array();
  for (const DrivesCompared& row : report.drives) drives.push_back(drives_json(row));
  Json values = Json::array();
  for (const ValuesCompared& table : report.values) values.push_back(values_json(table));
  Json targets = Json::array();
  for (const Target& target : report.targets) targets.push_back(target_json(target));
  return {{"setting", report.setting}, {"about", report.about}, {"source", report.source},
          {"targets", targets},        {"drives", drives},      {"values", values}};
}

}  // namespace callfit

#include "report/request_json.hpp"
#include <format/changes.hpp>
#include <format/kept_json.hpp>

#include "report/case_names.hpp"

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

/// The first of its names that is nobody else's, else its place.
Json called(const std::vector<Names>& names, std::size_t place) {
  for (const std::string& name : names.at(place))
    if (!name.empty() && places_called(names, name).size() == 1) return name;
  return place + 1;
}

Json all_called(const std::vector<Names>& names, const std::vector<std::size_t>& places) {
  Json json = Json::array();
  for (const std::size_t place : places) json.push_back(called(names, place));
  return json;
}

Json stand_json(const Stand& stand, const Case& about) {
  return {{"quarterback", called(quarterback_names(about), stand.quarterback)},
          {"scheme", called(scheme_names(about), stand.scheme)},
          {"changes", changes_json(stand.changes)},
          {"as_learned", stand.as_learned}};
}

Json keys_of(const FitRequest& request, const Case& about) {
  Json json = stand_json(request.stand, about);
  json["weights_by_points"] = request.weights_by_points;
  return json;
}

Json keys_of(const DrivesRequest& request, const Case& about) {
  Json json = stand_json(request.stand, about);
  if (request.from)
    json["from"] = Json{{"down", request.from->down},
                        {"to_go", request.from->to_go},
                        {"yards_to_goal", request.from->yards_to_goal}};
  json["sampled_drives"] = request.sampled_drives;
  return json;
}

Json keys_of(const CompareRequest& request, const Case& about) {
  return {{"quarterbacks", all_called(quarterback_names(about), request.quarterbacks)},
          {"schemes", all_called(scheme_names(about), request.schemes)}};
}

Json keys_of(const TryRequest& request, const Case& about) {
  Json tries = Json::array();
  for (const Try& one : request.tries)
    tries.push_back({{"name", one.name}, {"changes", changes_json(one.changes)}});
  Json json = stand_json(request.stand, about);
  json["tries"] = std::move(tries);
  return json;
}

Json keys_of(const SweepRequest& request, const Case& about) {
  Json ranges = Json::array();
  for (const SweepRange& range : request.ranges)
    ranges.push_back(
        {{"path", range.path}, {"from", range.from}, {"to", range.to}, {"count", range.count}});
  Json json = stand_json(request.stand, about);
  json["ranges"] = std::move(ranges);
  return json;
}

Json keys_of(const LeversRequest& request, const Case& about) {
  return stand_json(request.stand, about);
}

Json keys_of(const BreakEvenRequest& request, const Case& about) {
  return {{"first", stand_json(request.first, about)},
          {"second", stand_json(request.second, about)},
          {"path", request.path},
          {"both", request.both}};
}

Json keys_of(const PackageRequest& request, const Case& about) {
  Json json = stand_json(request.stand, about);
  json["package"] = package_json(request.package);
  return json;
}

Json keys_of(const TailorRequest& request, const Case& about) {
  Json json = stand_json(request.stand, about);
  json["limits"] = limits_json(request.limits);
  return json;
}

Json keys_of(const NextRequest& request, const Case& about) {
  Json json = stand_json(request.stand, about);
  json["snaps"] = request.snaps;
  return json;
}

Json keys_of(const TrendRequest& request, const Case& about) {
  Json json = stand_json(request.stand, about);
  json["before"] = request.before;
  for (const KeptAnswer& kept : request.kept) json["kept"].push_back(kept_json(kept));
  return json;
}

Json keys_of(const BriefRequest& request, const Case& about) {
  return {{"first", stand_json(request.first, about)},
          {"second", stand_json(request.second, about)}};
}

Json keys_of(const SayRequest& request, const Case& about) {
  Json json = stand_json(request.stand, about);
  if (request.against) json["against"] = stand_json(*request.against, about);
  return json;
}

Json keys_of(const SnapsRequest& request, const Case& about) {
  Json json = stand_json(request.stand, about);
  json["number"] = request.number;
  return json;
}

}  // namespace

Json to_json(const Request& request, const Case& about) {
  Json json{{"kind", kind_of(request)}};
  json.update(std::visit([&](const auto& one) { return keys_of(one, about); }, request));
  return json;
}

}  // namespace callfit

#include "report/json.hpp"

#include <nlohmann/json.hpp>

#include <array>
#include <cmath>
#include <stdexcept>

namespace callfit {
namespace {

Json effect_json(const Effect& effect) {
  return {{"before", to_json(effect.before)},
          {"after", to_json(effect.after)},
          {"change", to_json(effect.change)}};
}

Json shares_json(const VarianceShares& shares) {
  Json json = Json::object();
  if (shares.net_points) json["variance_share_of_net_points"] = *shares.net_points;
  if (shares.place) json["variance_share_of_place"] = *shares.place;
  return json;
}

Json moved_json(const MeansMoved& moved) {
  Json json = Json::object();
  if (moved.net_points_per_game) json["net_points_per_game"] = *moved.net_points_per_game;
  if (moved.place) json["place_of_100"] = *moved.place;
  return json;
}

Json footing_json(const About& about) {
  const Footing& footing = *about.footing;
  Json assumed{{"scale", about.assumed_scale}};
  if (footing.assumed.net_points)
    assumed["net_points_narrower_at_half"] = *footing.assumed.net_points;
  if (footing.assumed.place) assumed["place_narrower_at_half"] = *footing.assumed.place;
  Json json{{"assumed", std::move(assumed)}};
  if (footing.moves) json["moves"] = shares_json(*footing.moves);
  if (footing.schedule) {
    json["schedule"] = Json{{"known_opponents", footing.schedule->opponents}};
    json["schedule"].update(moved_json(footing.schedule->moved));
  }
  if (footing.coming) json["coming"] = moved_json(*footing.coming);
  return json;
}

Json departure_json(const SeasonDeparture& one) {
  const auto count = [](const BoxCount& counts) {
    return Json{{"made", counts.made}, {"of", counts.of}};
  };
  return {{"season", one.season},    {"level", one.level},
          {"rate", word(one.rate)},  {"charted", count(one.charted)},
          {"rest", count(one.rest)}, {"standard_errors", one.errors}};
}

}  // namespace

Json to_json(const Interval& interval) { return Json::array({interval.low, interval.high}); }

Json to_json(const Number& number) {
  return {{"centre", number.centre},
          {"low", number.low},
          {"high", number.high},
          {"draws", number.draws},
          {"error", number.error}};
}

Json verdict_json(const Verdict& verdict, const std::string& words) {
  Json json{{"odds", verdict.odds},
            {"error", verdict.error},
            {"lean", word(verdict.lean())},
            {"words", words}};
  if (verdict.level_odds) json["level_odds"] = *verdict.level_odds;
  return json;
}

Json to_json(const About& about) {
  Json tape = Json::array();
  for (const LevelCount& level : about.tape)
    tape.push_back({{"level", level.level}, {"snaps", level.snaps}});
  Json json{{"quarterback", about.quarterback},
            {"scheme", about.scheme},
            {"level", about.level},
            {"charted_snaps", about.snaps},
            {"tape", std::move(tape)},
            {"as_learned", about.as_learned}};
  if (about.footing) json["rests_on"] = footing_json(about);
  if (!about.departures.empty()) {
    json["charted_games_apart"] = Json::array();
    for (const SeasonDeparture& one : about.departures)
      json["charted_games_apart"].push_back(departure_json(one));
  }
  return json;
}

Json to_json(const Method& method) {
  return {{"exact_solves", method.exact_solves},
          {"all_exact", method.all_exact},
          {"surrogate_error_net_points_per_drive", method.surrogate_error}};
}

Json to_json(const DriveValues& values) {
  Json shares = Json::object();
  for (std::size_t i = 0; i < drive_result_count; ++i)
    shares[std::string(word(static_cast<DriveResult>(i)))] = values.share[i];
  return {{"points_per_drive", values.points},
          {"net_points_per_drive", values.net_points},
          {"results", std::move(shares)},
          {"first_downs_per_drive", values.first_downs},
          {"plays_per_drive", values.plays}};
}

Json to_json(const DifferenceAnswer& difference) {
  const std::string words = ahead_words(difference.ahead, difference.first, difference.second);
  return {{"first", difference.first},
          {"second", difference.second},
          {"points_per_drive", to_json(difference.points_per_drive)},
          {"net_points_per_drive", to_json(difference.net_points_per_drive)},
          {"points_per_game", to_json(difference.points_per_game)},
          {"net_points_per_game", to_json(difference.net_points_per_game)},
          {"ahead", verdict_json(difference.ahead, words)}};
}

Json to_json(const Moved& moved) {
  Json json{{"path", moved.path},
            {"label", moved.label},
            {"unit", unit_word(moved.unit)},
            {"asked", moved.asked}};
  if (moved.unit == KnobUnit::word)
    json.update(Json{{"before", moved.word_before}, {"after", moved.word_after}});
  else
    json.update(Json{{"before", moved.before}, {"after", moved.after}});
  return json;
}

Json to_json(const TryResult& result) {
  Json moved = Json::array();
  for (const Moved& one : result.moved) moved.push_back(to_json(one));
  Json json{{"name", result.name},
            {"moved", std::move(moved)},
            {"place_of_100", effect_json(result.place)},
            {"drives_moved", result.drives.has_value()}};
  if (!result.drives) return json;
  const DrivesMoved& drives = *result.drives;
  json.update(Json{{"points_per_drive", effect_json(drives.points_per_drive)},
                   {"net_points_per_drive", effect_json(drives.net_points_per_drive)},
                   {"points_per_game", effect_json(drives.points_per_game)},
                   {"net_points_per_game", effect_json(drives.net_points_per_game)},
                   {"better", verdict_json(drives.better, better_words(drives.better))}});
  return json;
}

Json to_json(const LeverAnswer& lever) {
  return {{"path", lever.path},
          {"label", lever.label},
          {"unit", unit_word(lever.unit)},
          {"is_call", lever.is_call},
          {"of_handoffs", lever.of_handoffs},
          {"now", lever.now},
          {"step", lever.step},
          {"net_points_per_game", to_json(lever.net_points_per_game)},
          {"points_per_game", to_json(lever.points_per_game)},
          {"place_of_100_change", lever.place}};
}

Json package_json(const Package& package) {
  Json json{{"situation", package.situation}};
  if (package.inside) json["inside_yards"] = *package.inside;
  json["family"] = package.family;
  if (package.against) json["against"] = word(*package.against);
  json.update(Json{{"share", package.share}, {"fade", package.fade}});
  return json;
}

Json limits_json(const TailorLimits& limits) {
  return {{"move", limits.move},
          {"run_pass", limits.run_pass},
          {"fade", limits.fade},
          {"uncharted", limits.uncharted}};
}

std::string_view unit_word(KnobUnit unit) {
  constexpr auto words = std::to_array<std::string_view>({"share", "yards", "number", "word"});
  return words[static_cast<std::size_t>(unit)];
}

std::string_view measure_unit_word(bool in_yards) {
  return unit_word(in_yards ? KnobUnit::yards : KnobUnit::share);
}

void require_finite(const Json& json) {
  if (json.is_number_float() && !std::isfinite(json.get<double>()))
    throw std::logic_error("a number of a result is not finite");
  if (json.is_structured())
    for (const Json& part : json) require_finite(part);
}

}  // namespace callfit

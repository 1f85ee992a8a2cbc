#include "report/question_json.hpp"

#include <nlohmann/json.hpp>

#include <array>

namespace callfit {
namespace {

const char* unit_word(KnobUnit unit) {
  constexpr std::array words{"share", "yards", "number", "word"};
  return words[static_cast<std::size_t>(unit)];
}

Json effect_json(const Effect& effect) {
  return {{"before", to_json(effect.before)},
          {"after", to_json(effect.after)},
          {"change", to_json(effect.change)}};
}

Json moved_json(const Moved& moved) {
  Json json{{"path", moved.path}, {"unit", unit_word(moved.unit)}, {"asked", moved.asked}};
  if (moved.unit == KnobUnit::word)
    json.update(Json{{"before", moved.word_before}, {"after", moved.word_after}});
  else
    json.update(Json{{"before", moved.before}, {"after", moved.after}});
  return json;
}

}  // namespace

Json whatif_json(const WhatIf& result) {
  Json moved = Json::array();
  for (const Moved& entry : result.moved) moved.push_back(moved_json(entry));
  return {{"moved", moved},
          {"fit", effect_json(result.fit)},
          {"points_per_drive", effect_json(result.points_per_drive)},
          {"points_per_game", effect_json(result.points_per_game)},
          {"net_points_per_drive", effect_json(result.net_per_drive)},
          {"net_points_per_game", effect_json(result.net_per_game)},
          {"chance_better", result.chance_better},
          {"drive_before", to_json(result.drive_before)},
          {"drive_after", to_json(result.drive_after)}};
}

Json sweep_json(const Sweep& result) {
  Json points = Json::array();
  for (const SweepPoint& point : result.points)
    points.push_back({{"at", point.at},
                      {"fit", point.fit},
                      {"points_per_drive", to_json(point.points)},
                      {"net_points_per_drive", to_json(point.net)},
                      {"net_points_per_game_change", to_json(point.net_change)}});
  return {{"path", result.path},
          {"unit", unit_word(result.unit)},
          {"now", result.now},
          {"points", points}};
}

Json grid_json(const SweepGrid& result) {
  Json cells = Json::array();
  for (const auto& row : result.cell) {
    Json line = Json::array();
    for (const UncertainValue& value : row) line.push_back(to_json(value));
    cells.push_back(std::move(line));
  }
  return {{"rows", {{"path", result.path[0]}, {"now", result.now[0]}, {"at", result.rows}}},
          {"columns", {{"path", result.path[1]}, {"now", result.now[1]}, {"at", result.columns}}},
          {"net_points_per_game_change", cells}};
}

Json levers_json(const std::vector<LeverValue>& levers) {
  Json list = Json::array();
  for (const LeverValue& lever : levers)
    list.push_back({{"path", lever.path},
                    {"unit", unit_word(lever.unit)},
                    {"now", lever.now},
                    {"step", lever.step},
                    {"points_per_drive_slope", lever.points_slope},
                    {"net_points_per_drive_slope", lever.net_slope},
                    {"fit_slope", lever.fit_slope},
                    {"net_points_per_game", to_json(lever.net_per_game)}});
  return list;
}

Json break_even_json(const BreakEven& result) {
  Json json{{"path", result.path},
            {"unit", unit_word(result.unit)},
            {"now", result.now},
            {"low", result.low},
            {"high", result.high},
            {"net_points_per_game_at_low", result.net_at_low},
            {"net_points_per_game_at_high", result.net_at_high},
            {"net_points_per_game_now", to_json(result.net_now)}};
  if (result.value)
    json.update(Json{{"break_even", *result.value},
                     {"more_helps_first", result.more_helps},
                     {"residual", result.residual}});
  if (result.chance) json["chance_first_ahead_of_it"] = *result.chance;
  return json;
}

Json package_json(const PackageResult& result, const Package& package) {
  const auto counts = [](const GameCounts& game) {
    return Json{{"package_calls", game.package_calls},
                {"quarterback_runs", game.quarterback_runs},
                {"red_zone_touchdowns", game.red_zone_touchdowns}};
  };
  Json json{{"family", package.family},
            {"share", package.share},
            {"fade", package.fade},
            {"surprising_share", result.surprising},
            {"per_game_before", counts(result.before)},
            {"per_game_after", counts(result.after)}};
  Json effect = whatif_json(result.effect);
  effect.erase("moved");
  json["effect"] = std::move(effect);
  return json;
}

Json tailored_json(const Tailored& result, const TailorLimits& limits) {
  return {{"limits", {{"move", limits.move}, {"run_pass", limits.run_pass}, {"fade", limits.fade}}},
          {"net_points_per_drive_before", result.net_before},
          {"net_points_per_drive_after", result.net_after},
          {"net_points_per_drive_bound", result.net_bound},
          {"evaluations", result.evaluations},
          {"effect", whatif_json(result.effect)}};
}

Json brief_json(const Brief& brief) {
  Json reasons = Json::array();
  for (const Reason& reason : brief.reasons)
    reasons.push_back(
        {{"family", reason.family}, {"net_points_per_game", to_json(reason.net_per_game)}});
  Json json{{"first", brief.first},
            {"second", brief.second},
            {"scheme", brief.scheme},
            {"first_minus_second", to_json(brief.difference)},
            {"fit", Json::array({brief.first_fit, brief.second_fit})},
            {"reasons", reasons}};
  if (brief.doubt)
    json["doubt"] = Json{{"about", brief.doubt->about},
                         {"value", brief.doubt->value},
                         {"interval90", to_json(brief.doubt->interval90)},
                         {"snaps", brief.doubt->snaps},
                         {"net_points_per_game_swing", brief.doubt->swing}};
  if (brief.wrinkle) json["wrinkle"] = levers_json({*brief.wrinkle}).front();
  return json;
}

Json agreement_json(const WeightAgreement& agreement) {
  return {{"quarterbacks", agreement.quarterbacks},
          {"spearman_between_fits", agreement.between_fits},
          {"spearman_scheme_fit_and_net_points", agreement.scheme_points},
          {"spearman_points_fit_and_net_points", agreement.points_points}};
}

Json knobs_json(const Question& question) {
  Json list = Json::array();
  for (const Knob& knob : knobs_of(question)) {
    Json json{{"path", knob.path}, {"unit", unit_word(knob.unit)}, {"about", knob.about}};
    if (knob.unit == KnobUnit::word)
      json["now"] = knob.words[static_cast<std::size_t>(knob.get(question))];
    else
      json.update(Json{{"now", knob.get(question)}, {"low", knob.low}, {"high", knob.high}});
    list.push_back(std::move(json));
  }
  return list;
}

}  // namespace callfit

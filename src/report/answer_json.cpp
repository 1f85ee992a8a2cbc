#include "report/answer_json.hpp"

#include <callfit/report/answer_text.hpp>

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

template <class List>
Json list_of(const List& list) {
  Json json = Json::array();
  for (const auto& one : list) json.push_back(to_json(one));
  return json;
}

template <class List, class Convert>
Json list_of(const List& list, Convert convert) {
  Json json = Json::array();
  for (const auto& one : list) json.push_back(convert(one));
  return json;
}

Json demand_json(const DemandAnswer& demand, const std::string& family) {
  Json json{{"family", family}, {"measure", word(demand.measure)}};
  if (demand.cell) json["when"] = word(*demand.cell);
  json.update(Json{{"label", demand.label},
                   {"asked_path", demand.asked_path},
                   {"own_path", demand.own_path},
                   {"part_path", demand.part_path},
                   {"unit", measure_unit_word(demand.in_yards)},
                   {"more_is_better", demand.more_is_better},
                   {"asked", demand.asked},
                   {"spread", demand.spread}});
  if (!demand.in_yards) json.update(Json{{"made", demand.made}, {"of", demand.of}});
  json.update(Json{{"usual", demand.usual},
                   {"estimate", to_json(demand.estimate)},
                   {"short_by_spreads", to_json(demand.short_by)},
                   {"weight_share", demand.weight},
                   {"mean_part_of_distance_squared", demand.part},
                   {"reaches", verdict_json(demand.reaches, reach_words(demand.reaches))}});
  if (demand.costs) json["costs_net_points_per_game"] = to_json(*demand.costs);
  return json;
}

Json family_json(const FamilyAnswer& family) {
  return {{"id", family.id},
          {"label", family.label},
          {"call_path", family.call_path},
          {"call_share", family.call_share},
          {"charted_snaps", family.snaps},
          {"mean_part_of_distance_squared", family.part},
          {"costs_net_points_per_game", family.costs},
          {"unseen", family.unseen}};
}

Json unused_json(const UnusedAnswer& unused) {
  return {{"family", unused.family},
          {"label", unused.label},
          {"measure", word(unused.measure)},
          {"unit", measure_unit_word(unused.in_yards)},
          {"estimate", to_json(unused.estimate)},
          {"usual", unused.usual},
          {"surplus_spreads", unused.surplus},
          {"call_share", unused.call_share}};
}

Json weights_json(const WeightAgreement& weights) {
  return {{"quarterbacks", weights.quarterbacks},
          {"spearman_between_fits", weights.between_fits},
          {"spearman_scheme_fit_and_net_points", weights.scheme_points},
          {"spearman_points_fit_and_net_points", weights.points_points}};
}

Json json_of(const FitAnswer& answer) {
  Json json{{"about", to_json(answer.about)},
            {"place_of_100", to_json(answer.place)},
            {"distance_squared", to_json(answer.distance)},
            {"mean_distance_squared", answer.mean_distance},
            {"families", list_of(answer.families, family_json)},
            {"demands", list_of(answer.demands,
                                [&](const DemandAnswer& one) {
                                  return demand_json(one, answer.families.at(one.family).id);
                                })},
            {"unused_strengths", list_of(answer.unused, unused_json)}};
  if (answer.weights) json["weights_by_points"] = weights_json(*answer.weights);
  return json;
}

Json field_json(const DrivesAnswer& answer) {
  Json rows = Json::array();
  for (std::size_t i = 0; i < answer.points_at.size(); ++i)
    rows.push_back({{"yards_to_goal", i + 1},
                    {"points_per_drive", to_json(answer.points_at[i])},
                    {"net_points_per_drive", to_json(answer.net_points_at.at(i))}});
  return rows;
}

Json result_json(const NamedNumber& one) {
  return {{"id", one.id}, {"label", one.label}, {"share_of_drives", to_json(one.number)}};
}

Json situation_json(const SituationPlays& one) {
  return {{"id", one.id}, {"label", one.label}, {"plays_per_drive", one.plays}};
}

Json json_of(const DrivesAnswer& answer) {
  Json json{{"about", to_json(answer.about)}};
  if (answer.from)
    json["from"] = Json{{"down", answer.from->down},
                        {"to_go", answer.from->to_go},
                        {"yards_to_goal", answer.from->yards_to_goal}};
  json.update(Json{{"points_per_drive", to_json(answer.points)},
                   {"net_points_per_drive", to_json(answer.net_points)},
                   {"points_per_game", to_json(answer.points_per_game)},
                   {"net_points_per_game", to_json(answer.net_points_per_game)},
                   {"drives_per_game", answer.drives_per_game},
                   {"results", list_of(answer.results, result_json)},
                   {"first_downs_per_drive", to_json(answer.first_downs)},
                   {"plays_per_drive", to_json(answer.plays)},
                   {"first_and_ten", field_json(answer)},
                   {"situations", list_of(answer.situations, situation_json)}});
  if (answer.handoffs)
    json["handoffs"] =
        Json{{"success", to_json(answer.handoffs->success)}, {"usual", answer.handoffs->usual}};
  if (answer.sampled)
    json["sampled"] = Json{{"drives", answer.sampled->drives},
                           {"mean", to_json(answer.sampled->mean)},
                           {"standard_error", to_json(answer.sampled->standard_error)}};
  json["method"] = to_json(answer.method);
  return json;
}

Json entry_json(const EntryAnswer& entry) {
  return {{"about", to_json(entry.about)},
          {"place_of_100", to_json(entry.place)},
          {"points_per_drive", to_json(entry.points)},
          {"net_points_per_drive", to_json(entry.net_points)},
          {"odds_best", entry.odds_best},
          {"method", to_json(entry.method)}};
}

Json json_of(const CompareAnswer& answer) {
  return {{"quarterbacks", answer.quarterbacks},
          {"schemes", answer.schemes},
          {"entries", list_of(answer.entries, entry_json)},
          {"differences", list_of(answer.differences)},
          {"drives_per_game", answer.drives_per_game}};
}

Json json_of(const TryAnswer& answer) {
  return {{"about", to_json(answer.about)}, {"tries", list_of(answer.tries)}};
}

Json axis_json(const SweepAxis& axis) {
  return {{"path", axis.path},
          {"label", axis.label},
          {"unit", unit_word(axis.unit)},
          {"now", axis.now},
          {"at", axis.at}};
}

Json cell_json(const SweepCell& cell) {
  return {{"place_of_100", to_json(cell.place)},
          {"points_per_drive", to_json(cell.points_per_drive)},
          {"net_points_per_drive", to_json(cell.net_points_per_drive)},
          {"net_points_per_game_change", to_json(cell.net_points_per_game_change)}};
}

Json json_of(const SweepAnswer& answer) {
  return {{"about", to_json(answer.about)},
          {"axes", list_of(answer.axes, axis_json)},
          {"cells", list_of(answer.cells, [](const std::vector<SweepCell>& row) {
             return list_of(row, cell_json);
           })}};
}

Json json_of(const LeversAnswer& answer) {
  return {{"about", to_json(answer.about)}, {"levers", list_of(answer.levers)}};
}

Json json_of(const BreakEvenAnswer& answer) {
  Json json{{"first", to_json(answer.first)},
            {"second", to_json(answer.second)},
            {"path", answer.path},
            {"label", answer.label},
            {"unit", unit_word(answer.unit)},
            {"both", answer.both},
            {"now", answer.now},
            {"low", answer.low},
            {"high", answer.high},
            {"net_points_per_game_at_low", answer.net_at_low},
            {"net_points_per_game_at_high", answer.net_at_high}};
  if (answer.value)
    json.update(Json{{"break_even", *answer.value},
                     {"more_helps_first", answer.more_helps},
                     {"residual_net_points_per_drive", answer.residual}});
  if (answer.ahead_of_it) {
    const DifferenceAnswer& now = answer.now_difference;
    json["own_value_ahead_of_it"] =
        verdict_json(*answer.ahead_of_it, ahead_words(*answer.ahead_of_it, now.first, now.second));
  }
  json["now_first_minus_second"] = to_json(answer.now_difference);
  return json;
}

Json counts_json(const GameCounts& game) {
  return {{"package_calls", game.package_calls},
          {"quarterback_runs", game.quarterback_runs},
          {"red_zone_touchdowns", game.red_zone_touchdowns}};
}

Json json_of(const PackageAnswer& answer) {
  return {{"about", to_json(answer.about)},
          {"package", package_json(answer.package)},
          {"family_label", answer.family},
          {"surprising_share", answer.surprising},
          {"effect", to_json(answer.effect)},
          {"mean_per_game_before", counts_json(answer.before)},
          {"mean_per_game_after", counts_json(answer.after)}};
}

Json json_of(const TailorAnswer& answer) {
  return {{"about", to_json(answer.about)},
          {"limits", limits_json(answer.limits)},
          {"effect", to_json(answer.effect)},
          {"advised", answer.advised},
          {"own_net_points_per_game", to_json(answer.own_net_points_per_game)},
          {"own", verdict_json(answer.own, better_words(answer.own))}};
}

Json next_json(const NextFamily& family) {
  Json out = {{"id", family.id},
              {"label", family.label},
              {"charted_snaps", family.snaps},
              {"call_share", family.call_share},
              {"variance_share_of_net_points", family.share_of_points},
              {"variance_share_of_place", family.share_of_fit},
              {"half_width_after_net_points_per_game", family.points_after},
              {"half_width_after_place_of_100", family.place_after}};
  if (family.film_minutes) out["film_minutes"] = *family.film_minutes;
  return out;
}

Json json_of(const NextAnswer& answer) {
  return {{"about", to_json(answer.about)},
          {"more_snaps", answer.more_snaps},
          {"net_points_per_game", to_json(answer.net_points_per_game)},
          {"place_of_100", to_json(answer.place)},
          {"families", list_of(answer.families, next_json)}};
}

Json followed_json(const FollowedAnswer& followed) {
  return {{"family", followed.family},
          {"label", followed.label},
          {"unit", measure_unit_word(followed.in_yards)},
          {"usual", followed.usual}};
}

Json step_json(const TrendStepAnswer& step) {
  return {{"game", step.game},
          {"charted_snaps", step.snaps},
          {"effective_snaps", step.effective_snaps},
          {"place_of_100", to_json(step.place)},
          {"net_points_per_drive", to_json(step.net_points_per_drive)},
          {"followed", list_of(step.followed)}};
}

Json outcome_json(const KeptOutcome& outcome) {
  Json json{{"date", outcome.date},
            {"family", outcome.said.family},
            {"label", outcome.said.label},
            {"asked", outcome.said.asked},
            {"said_odds", outcome.said.odds},
            {"made", outcome.made},
            {"of", outcome.of},
            {"count_odds", outcome.odds},
            {"came", outcome.came}};
  return json;
}

Json group_json(const KeptGroup& group) {
  return {{"lean", word(group.lean)},
          {"verdicts", group.verdicts},
          {"said", group.said},
          {"came", group.came}};
}

Json kept_score_json(const KeptScore& score) {
  return {{"outcomes", list_of(score.outcomes, outcome_json)},
          {"groups", list_of(score.groups, group_json)},
          {"brier", score.brier},
          {"expected_brier", score.expected_brier},
          {"left_out", score.left_out}};
}

Json json_of(const TrendAnswer& answer) {
  Json json{{"about", to_json(answer.about)},
            {"first_answer_held", answer.held},
            {"followed", list_of(answer.followed, followed_json)},
            {"steps", list_of(answer.steps, step_json)}};
  if (answer.kept) json["kept"] = kept_score_json(*answer.kept);
  return json;
}

Json reason_json(const ReasonAnswer& reason, const DifferenceAnswer& difference) {
  const std::string words = ahead_words(reason.ahead, difference.first, difference.second);
  return {{"family", reason.family},
          {"mean_part_net_points_per_game", reason.part},
          {"net_points_per_game", to_json(reason.net_points_per_game)},
          {"ahead", verdict_json(reason.ahead, words)}};
}

Json doubt_json(const DoubtAnswer& doubt) {
  return {{"label", doubt.label},
          {"estimate", to_json(doubt.estimate)},
          {"made", doubt.made},
          {"of", doubt.of},
          {"swing_net_points_per_game", doubt.swing}};
}

Json part_json(const ChangePart& part) {
  Json json{{"cause", word(part.cause)},
            {"mean_net_points_per_game", part.mean_net_points_per_game},
            {"net_points_per_game", to_json(part.net_points_per_game)}};
  if (part.mean_place) json["mean_place_of_100"] = *part.mean_place;
  if (part.place) json["place_of_100"] = to_json(*part.place);
  return json;
}

Json change_json(const ChangeAnswer& change, const DifferenceAnswer& difference) {
  return {{"parts", list_of(change.parts, part_json)},
          {"mean_net_points_per_game", change.mean_net_points_per_game},
          {"net_points_per_game", to_json(change.net_points_per_game)},
          {"ahead", verdict_json(change.ahead,
                                 ahead_words(change.ahead, difference.first, difference.second))}};
}

Json json_of(const BriefAnswer& answer) {
  Json json{{"first", to_json(answer.first)},
            {"second", to_json(answer.second)},
            {"first_minus_second", to_json(answer.difference)},
            {"first_place_of_100", to_json(answer.first_place)},
            {"second_place_of_100", to_json(answer.second_place)},
            {"change", change_json(answer.change, answer.difference)},
            {"reasons",
             list_of(answer.reasons,
                     [&](const ReasonAnswer& one) { return reason_json(one, answer.difference); })},
            {"mean_rest_net_points_per_game", answer.rest},
            {"mean_net_points_per_game_in_first_scheme", answer.mean_in_first_scheme}};
  if (answer.doubt) json["doubt"] = doubt_json(*answer.doubt);
  if (answer.wrinkle) json["wrinkle"] = to_json(*answer.wrinkle);
  return json;
}

Json json_of(const SayAnswer& answer) {
  Json json{{"about", to_json(answer.about)},
            {"paragraph", paragraph(answer)},
            {"place_of_100", to_json(answer.place)},
            {"demands", list_of(answer.demands, [](const SaidDemand& said) {
               return demand_json(said.demand, said.family);
             })}};
  if (answer.difference) json["first_minus_second"] = to_json(*answer.difference);
  return json;
}

Json moves_json(const SnapMoves& moves) {
  return {{"mean_without_tape", moves.without},
          {"mean_with_tape", moves.with},
          {"by_rows", moves.rows},
          {"by_other_snaps", moves.other_snaps},
          {"by_season_totals", moves.season_totals},
          {"rest", moves.rest}};
}

Json row_json(const SnapRow& row) {
  const Snap& snap = row.snap;
  Json json{{"chart", row.chart},
            {"line", row.line},
            {"game", snap.game.str()},
            {"level", snap.level.str()},
            {"down", snap.down},
            {"to_go", snap.to_go},
            {"yards_to_goal", snap.yards_to_goal},
            {"family", snap.family.str()},
            {"result", word(snap.result)},
            {"yards", snap.yards},
            {"counts", row.counts},
            {"weight", row.weight}};
  if (!row.counts) json["why_not"] = row.why_not;
  if (row.made) json["made"] = *row.made;
  if (row.moved) json["moved"] = *row.moved;
  const auto add = [&json](const char* key, const SharedText& text) {
    if (!text.empty()) json[key] = text.str();
  };
  add("opponent", snap.opponent);
  add("season", snap.season);
  add("note", snap.note);
  add("clip", snap.clip);
  if (snap.start) json["start"] = *snap.start;
  if (snap.end) json["end"] = *snap.end;
  return json;
}

Json json_of(const SnapsAnswer& answer) {
  Json json{{"about", to_json(answer.about)},
            {"number", answer.number.address},
            {"label", answer.number.label},
            {"unit", word(answer.number.unit)},
            {"has_charts", answer.has_charts}};
  if (answer.shown) json["shown"] = to_json(*answer.shown);
  if (answer.moves) json["moves"] = moves_json(*answer.moves);
  json.update(Json{{"rows", list_of(answer.rows, row_json)},
                   {"most_up", answer.most_up},
                   {"most_down", answer.most_down}});
  return json;
}

}  // namespace

Json to_json(const Answer& answer) {
  Json json = std::visit([](const auto& one) { return json_of(one); }, answer);
  require_finite(json);
  return json;
}

}  // namespace callfit

// The game around the quarterback: rules, habits, kicks, penalties, turnovers.
#include <format/families.hpp>
#include <format/rule_json.hpp>
#include <format/setting_parts.hpp>

#include <algorithm>

namespace callfit {
namespace {

constexpr Numbers yards_rule{1, 99, "yards"};

Numbers points_rule(std::string_view want) { return {-10, 20, want}; }

bool read_missed_kick(Fields& fields, GameRules& rules) {
  rules.missed_kick_behind_line =
      fields.integer("behind_line", {0, 15, "yards behind the line, 0 for the line"});
  rules.missed_kick_minimum_own_yard =
      fields.integer("minimum_own_yard", {1, 50, "the own yard line it cannot be behind"});
  read_notes(fields);
  return true;
}

GameRules rules_from(Fields& fields) {
  GameRules rules;
  rules.touchdown = fields.number("touchdown", points_rule("points of a touchdown"));
  rules.try_mean = fields.number("try_mean", points_rule("mean points of a try"));
  rules.field_goal = fields.number("field_goal", points_rule("points of a field goal"));
  rules.safety = fields.number("safety", points_rule("points of a safety"));
  rules.end_zone_depth = fields.integer("end_zone_depth", {1, 25, "yards"});
  rules.kick_distance_beyond_line = fields.integer(
      "kick_distance_beyond_line",
      {0, 30, "yards from the line of scrimmage to the kick and through the end zone"});
  fields.object("missed_kick",
                R"(where the opponent takes over: {"behind_line": 8, "minimum_own_yard": 20})",
                [&](Fields& kick) { return read_missed_kick(kick, rules); });
  rules.touchback_own_yard =
      fields.integer("other_touchback", {1, 50, "the own yard line after a touchback"});
  rules.hash_gap = fields.number_or(
      "hash_gap_feet", {1, 159, "feet between the hash marks, 1 to 159"}, rules.hash_gap);
  fields.maybe("kickoff_touchback", [](const Part& part) {
    return part.integer({1, 50, "the own yard line after a kickoff's touchback"});
  });
  rules.safety_kick_start = own_yards_from(
      fields, "safety_kick_start",
      "probabilities of the own yard line of the team that receives the kick after a safety");
  read_notes(fields, Source::needed);
  return rules;
}

SuccessRule success_from(Fields& fields) {
  constexpr Sizes downs{4, 4, "the share of the distance that makes a success on downs 1 to 4"};
  SuccessRule rule;
  const std::vector<double> shares = fields.list("success", downs, [](const Part& part) {
    return part.number({0, 2});
  });
  if (shares.size() == rule.share_of_to_go.size())
    std::copy(shares.begin(), shares.end(), rule.share_of_to_go.begin());
  rule.explosive_pass = fields.integer("explosive_pass", yards_rule);
  rule.explosive_run = fields.integer("explosive_run", yards_rule);
  read_notes(fields);
  return rule;
}

FumbleLost fumbles_from(Fields& fields) {
  const FumbleLost lost{fields.number("sack", share_rule), fields.number("completion", share_rule),
                        fields.number("scramble", share_rule), fields.number("qb_run", share_rule),
                        fields.number("handoff", share_rule)};
  read_notes(fields, Source::needed);
  return lost;
}

BadSnap bad_snap_from(Fields& fields) {
  const BadSnap bad{fields.number("probability", share_rule),
                    fields.number("fumble_lost", share_rule)};
  read_notes(fields, Source::needed);
  return bad;
}

struct SpottedShort {
  double share = 0, at_goal = 0;
};

SpottedShort spotted_short_from(Fields& fields) {
  const SpottedShort spotted{fields.number("share", share_rule),
                             fields.number_or("at_goal", share_rule, 0.0)};
  read_notes(fields, Source::needed);
  return spotted;
}

OwnGoalRule own_goal_rule_from(Fields& fields) {
  const OwnGoalRule rule{
      fields.needed("yards_to_goal", range_want, [](const Part& part) { return band_from(part); }),
      fields.number("safety", share_rule)};
  read_notes(fields, Source::needed);
  return rule;
}

TurnoverReturns turnovers_from(Fields& fields) {
  TurnoverReturns turnovers{fields.needed("interception_return", pmf_want, pmf_from),
                            fields.number("interception_touchdown", share_rule),
                            fields.needed("fumble_return", pmf_want, pmf_from),
                            fields.number("fumble_touchdown", share_rule)};
  read_notes(fields, Source::needed);
  return turnovers;
}

/// The last rule of a list that is searched in order must match whatever is left.
template <class Rules>
Rules with_last(Rules rules, const Fields& document, std::string_view key) {
  if (rules.empty() || !document.sound(key) || matches_everything(rules.back().when)) return rules;
  const Part list = document.at(key);
  list.faults().add(child(child(list.pointer(), rules.size() - 1), "when"),
                    "the last rule does not match everything", "end the list with \"when\": {}");
  return rules;
}

ShellRule shell_rule_from(Fields& fields) {
  ShellRule rule{when_from(fields),
                 {fields.number("one_high", share_rule), fields.number("two_high", share_rule),
                  fields.number("none_high", share_rule)}};
  read_notes(fields, Source::needed);
  settle_shares({&rule.share[0], &rule.share[1], &rule.share[2]}, fields.part());
  return rule;
}

FourthDownRule fourth_down_rule_from(Fields& fields) {
  FourthDownRule rule{when_from(fields), fields.number("go", share_rule),
                      fields.number("punt", share_rule), fields.number("field_goal", share_rule)};
  read_notes(fields);
  settle_shares({&rule.go, &rule.punt, &rule.field_goal}, fields.part());
  return rule;
}

QualityClass quality_class_from(Fields& fields) {
  const QualityClass one{fields.number("weight", {0, 1, "the share of drives in the class"}),
                         shifts_from(fields)};
  read_notes(fields);
  return one;
}

std::vector<QualityClass> quality_from(Fields& fields) {
  std::vector<QualityClass> classes =
      fields.objects("classes", {1, 15, "classes whose weights sum to 1"}, "a class of drives",
                     quality_class_from);
  read_notes(fields, Source::needed);
  std::vector<double*> weights;
  weights.reserve(classes.size());
  for (QualityClass& one : classes) weights.push_back(&one.weight);
  if (fields.sound("classes")) settle_shares(weights, fields.at("classes"));
  return classes;
}

Level level_from(const Part& part, const std::string& id) {
  constexpr std::string_view want =
      R"(a level of competition such as {"weight": 0.5, "shifts": {"completion": 0.1}, )"
      R"("source": "assumed"})";
  return part.object(want, [&](Fields& fields) {
    Level level{id, fields.number("weight", {0, 1, "the weight of its snaps, from 0 to 1"}), {}};
    level.shift = fields.needed("shifts", rate_shifts_want, rate_shifts_from);
    read_notes(fields);
    return level;
  });
}

/// Probabilities of yards toward the goal: a foul of the offence moves the other way.
YardPmf mirrored(const YardPmf& pmf) { return {-pmf.last(), {pmf.p.rbegin(), pmf.p.rend()}}; }

constexpr std::string_view penalty_yards_want =
    "yards against the side that fouled: a number above 0, or probabilities of yards";

bool read_penalty_yards(const Part& part, Penalty& penalty) {
  if (!part.value().is_object()) {
    penalty.yards = {part.integer({1, 99, penalty_yards_want}), {1.0}};
    return true;
  }
  const YardPmf pmf = pmf_from(part);
  // With gains and losses of the play in it, the yards are a move of the ball and never halved.
  if (pmf.first > 0)
    penalty.yards = pmf;
  else
    penalty.move = penalty.side == Side::defence ? pmf : mirrored(pmf);
  return true;
}

Penalty penalty_from(Fields& fields) {
  Penalty penalty;
  penalty.id = fields.text("id", id_rule);
  penalty.side = fields.word<Side>("side");
  penalty.when = when_or_always(fields);
  penalty.probability =
      fields.number("probability", {0, 1, "the probability per snap, from 0 to 1"});
  penalty.automatic_first_down = fields.flag_or("automatic_first_down", false);
  penalty.spot_foul = fields.flag_or("spot_foul", false);
  penalty.down_counts = fields.flag_or("stands", false);
  fields.needed("yards", penalty_yards_want,
                [&](const Part& part) { return read_penalty_yards(part, penalty); });
  read_notes(fields, Source::needed);
  return penalty;
}

/// Drives that hardly ever play take too long to solve; real penalties are far below.
constexpr double most_penalised = 0.9;

/// Probabilities of everything that can happen on one snap must leave room for a play.
std::vector<Penalty> penalties_from(Fields& document) {
  std::vector<Penalty> penalties = document.objects("penalties", {0, 200, "kinds of penalties"},
                                                    "a kind of accepted penalty", penalty_from);
  if (!document.sound("penalties")) return penalties;
  for (int down = 1; down <= 4; ++down) {
    double total = 0;
    for (const Penalty& penalty : penalties)
      if (penalty.when.down.contains(down)) total += penalty.probability;
    if (total <= most_penalised) continue;
    document.at("penalties")
        .fault("penalties on down " + std::to_string(down) + " add up to more than 0.9",
               "give probabilities per snap");
    break;
  }
  return penalties;
}

PuntRule punt_rule_from(Fields& fields) {
  PuntRule rule{
      fields.needed("yards_to_goal", range_want, [](const Part& part) { return band_from(part); }),
      fields.number("touchback", share_rule), fields.number_or("return_touchdown", share_rule, 0.0),
      fields.needed("net", pmf_want, pmf_from)};
  read_notes(fields, Source::needed);
  return rule;
}

std::vector<PuntRule> punts_from(Fields& document) {
  std::vector<PuntRule> rules = document.objects(
      "punt", {1, 100, "punts by yards to goal; the first rule that matches counts"},
      "punts from a band of the field", punt_rule_from);
  if (!document.sound("punt")) return rules;
  for (int y = 1; y <= 99; ++y) {
    if (std::any_of(rules.begin(), rules.end(),
                    [y](const PuntRule& rule) { return rule.yards_to_goal.contains(y); }))
      continue;
    document.at("punt").fault("no rule for " + std::to_string(y) + " yards to goal",
                              "cover 1 to 99");
    break;
  }
  return rules;
}

StartKind start_from(const Part& part, const std::string& id) {
  return part.object("how own drives begin", [&](Fields& fields) {
    StartKind kind{id, fields.number("share", {0, 1, "the share of drives that begin this way"}),
                   own_yards_from(fields, "start", "probabilities of the own yard line, 1 to 99")};
    read_notes(fields, Source::needed);
    return kind;
  });
}

std::vector<StartKind> starts_from(Fields& document) {
  std::vector<StartKind> kinds =
      document.entries("starts", {1, unlimited, "starts of own drives by kind"}, start_from);
  std::vector<double*> shares;
  shares.reserve(kinds.size());
  for (StartKind& kind : kinds) shares.push_back(&kind.share);
  if (document.sound("starts")) settle_shares(shares, document.at("starts"));
  return kinds;
}

FieldGoalModel field_goal_from(Fields& fields) {
  const FieldGoalModel goal{fields.number("intercept", {-20, 40, "a number"}),
                            fields.number("slope", {-2, 0, "a number of at most 0"}),
                            fields.integer("longest", {20, 99, "yards; nothing longer is tried"})};
  read_notes(fields, Source::needed);
  return goal;
}

Kickoff kickoff_from(Fields& fields) {
  Kickoff kickoff{own_yards_from(fields, "start", "probabilities of the receiver's own yard line"),
                  fields.number("return_touchdown", share_rule)};
  read_notes(fields, Source::needed);
  return kickoff;
}

void read_habits(Fields& document, Setting& setting) {
  setting.shells = with_last(
      document.objects("shells",
                       {1, 100, "shares of shells by situation; the last must match everything"},
                       "shares of shells in a situation", shell_rule_from),
      document, "shells");
  setting.quality = document.object("quality", "classes of drives", quality_from);
  setting.penalties = penalties_from(document);
  setting.fourth_down = with_last(
      document.objects("fourth_down",
                       {1, 500,
                        "choices on fourth down; the first rule that matches counts, the last must "
                        "match everything"},
                       "shares of what is done on fourth down", fourth_down_rule_from),
      document, "fourth_down");
}

double surroundings_from(Fields& fields) {
  const double spread =
      fields.number("points_per_drive_spread",
                    {0, 2, "points per drive, standard deviation between teams' seasons, 0 to 2"});
  read_notes(fields, Source::needed);
  return spread;
}

std::vector<OwnGoalRule> own_goal_from(Fields& document) {
  constexpr Sizes sizes{0, 100,
                        "gains that end behind the own goal line, by yards to goal; the first rule "
                        "that matches counts"};
  const auto rules = document.maybe("own_goal", [&](const Part& part) {
    return part.list(sizes, [](const Part& item) {
      return item.object("gains from a band of the field", own_goal_rule_from);
    });
  });
  return rules.value_or(std::vector<OwnGoalRule>{});
}

void read_kicks(Fields& document, Setting& setting) {
  setting.own_goal = own_goal_from(document);
  setting.field_goal = document.object(
      "field_goal", "chance of a field goal: logit p = intercept + slope * distance in yards",
      field_goal_from);
  setting.punts = punts_from(document);
  setting.kickoff = document.object("kickoff", "kickoffs", kickoff_from);
}

}  // namespace

void read_game(Fields& document, Setting& setting) {
  setting.rules = document.object("rules", "points, kicks and touchbacks", rules_from);
  setting.success =
      document.object("definitions", "what counts as a success and as explosive", success_from);
  setting.drives_per_game =
      document.number("drives_per_game", {1, 40, "drives of one team in a game, 1 to 40"});
  const auto surroundings = document.maybe("surroundings", [](const Part& part) {
    return part.object("what teams' seasons differ by that no rate says", surroundings_from);
  });
  setting.surroundings_spread = surroundings.value_or(0.0);
  setting.end_of_half_share = document.number_or(
      "end_of_half_share", {0, 0.9, "the share of drives that the half cuts off, 0 to 0.9"}, 0.0);
  setting.fumble_lost =
      document.object("fumble_lost", "lost fumbles per play of a kind", fumbles_from);
  const auto bad_snap = document.maybe("bad_snap", [](const Part& part) {
    return part.object("snaps that never become a play", bad_snap_from);
  });
  if (bad_snap) setting.bad_snap = *bad_snap;
  const auto spotted_short = document.maybe("spotted_short", [](const Part& part) {
    return part.object("gains that just reach the line to gain, spotted a yard short of it",
                       spotted_short_from);
  });
  if (spotted_short) {
    setting.spotted_short = spotted_short->share;
    setting.spotted_at_goal = spotted_short->at_goal;
  }
  setting.turnovers =
      document.object("turnovers", "what follows interceptions and lost fumbles", turnovers_from);
  setting.levels =
      document.entries("levels", {1, unlimited, "levels of competition by id"}, level_from);
  read_habits(document, setting);
  read_kicks(document, setting);
  setting.starts = starts_from(document);
}

}  // namespace callfit

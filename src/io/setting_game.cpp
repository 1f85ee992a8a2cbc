// The game around the quarterback: rules, habits, kicks, penalties, turnovers.
#include <io/rule_json.hpp>
#include <io/setting_parts.hpp>

namespace callfit {
namespace {

GameRules rules_from(const Part& part) {
  GameRules rules;
  rules.touchdown = part.number("touchdown");
  rules.try_mean = part.number("try_mean");
  rules.field_goal = part.number("field_goal");
  rules.safety = part.number("safety");
  rules.end_zone_depth = part.integer("end_zone_depth");
  rules.kick_distance_beyond_line = part.integer("kick_distance_beyond_line");
  rules.missed_kick_behind_line = part.at("missed_kick").integer("behind_line");
  rules.missed_kick_minimum_own_yard = part.at("missed_kick").integer("minimum_own_yard");
  rules.touchback_own_yard = part.integer("other_touchback");
  rules.safety_kick_start = own_yards_from(part.at("safety_kick_start"));
  return rules;
}

SuccessRule success_from(const Part& part) {
  SuccessRule rule;
  rule.share_of_to_go = part.get<std::array<double, 4>>("success");
  rule.explosive_pass = part.integer("explosive_pass");
  rule.explosive_run = part.integer("explosive_run");
  return rule;
}

FumbleLost fumbles_from(const Part& part) {
  return {part.number("sack"), part.number("completion"), part.number("scramble"),
          part.number("qb_run"), part.number("handoff")};
}

TurnoverReturns turnovers_from(const Part& part) {
  return {pmf_from(part.at("interception_return")), part.number("interception_touchdown"),
          pmf_from(part.at("fumble_return")), part.number("fumble_touchdown")};
}

/// The last rule of a list that is searched in order must match whatever is left.
void check_last(const SituationRule& last, const Part& list) {
  if (!matches_everything(last))
    list.item(list.size() - 1)
        .at("when")
        .fault("the last rule does not match everything", "end the list with \"when\": {}");
}

std::vector<ShellRule> shells_from(const Part& list) {
  std::vector<ShellRule> rules;
  each_item(list, [&](const Part& part) {
    ShellRule rule{rule_at(part, "when"),
                   {part.number("one_high"), part.number("two_high"), part.number("none_high")}};
    settle_shares({&rule.share[0], &rule.share[1], &rule.share[2]}, part);
    rules.push_back(rule);
  });
  check_last(rules.back().when, list);
  return rules;
}

std::vector<FourthDownRule> fourth_down_from(const Part& list) {
  std::vector<FourthDownRule> rules;
  each_item(list, [&](const Part& part) {
    FourthDownRule rule{rule_at(part, "when"), part.number("go"), part.number("punt"),
                        part.number("field_goal")};
    settle_shares({&rule.go, &rule.punt, &rule.field_goal}, part);
    rules.push_back(rule);
  });
  check_last(rules.back().when, list);
  return rules;
}

std::vector<QualityClass> quality_from(const Part& list) {
  std::vector<QualityClass> classes;
  each_item(list, [&](const Part& part) {
    classes.push_back({part.number("weight"), shifts_from(part)});
  });
  std::vector<double*> weights;
  weights.reserve(classes.size());
  for (QualityClass& one : classes) weights.push_back(&one.weight);
  settle_shares(weights, list);
  return classes;
}

std::vector<Level> levels_from(const Part& levels) {
  std::vector<Level> list;
  each_entry(levels, [&](const Part& part, const std::string& id) {
    Level level{id, part.number("weight"), {}};
    for (std::size_t r = 0; r < rate_count; ++r)
      level.shift[r] = part.at("shifts").get<double>(word(static_cast<Rate>(r)), 0.0);
    list.push_back(level);
  });
  return list;
}

/// Probabilities of yards toward the goal: a foul of the offence moves the other way.
YardPmf mirrored(const YardPmf& pmf) { return {-pmf.last(), {pmf.p.rbegin(), pmf.p.rend()}}; }

void read_penalty_yards(const Part& part, Penalty& penalty) {
  const Part yards = part.at("yards");
  if (yards.value.is_number()) {
    penalty.yards = {yards.value.get<int>(), {1.0}};
    return;
  }
  const YardPmf pmf = pmf_from(yards);
  // With gains and losses of the play in it, the yards are a move of the ball and never halved.
  if (pmf.first > 0)
    penalty.yards = pmf;
  else
    penalty.move = penalty.side == Side::defence ? pmf : mirrored(pmf);
}

std::vector<Penalty> penalties_from(const Part& list) {
  std::vector<Penalty> penalties;
  each_item(list, [&](const Part& part) {
    Penalty penalty;
    penalty.id = part.text("id");
    penalty.side = from_word<Side>(part.text("side")).value();
    penalty.when = rule_at(part, "when");
    penalty.probability = part.number("probability");
    penalty.automatic_first_down = part.get<bool>("automatic_first_down", false);
    penalty.spot_foul = part.get<bool>("spot_foul", false);
    penalty.down_counts = part.get<bool>("stands", false);
    read_penalty_yards(part, penalty);
    penalties.push_back(std::move(penalty));
  });
  return penalties;
}

/// Probabilities of everything that can happen on one snap must leave room for a play.
void check_penalties(const std::vector<Penalty>& penalties, const Part& list) {
  for (int down = 1; down <= 4; ++down) {
    double total = 0;
    for (const Penalty& penalty : penalties)
      if (penalty.when.down.contains(down)) total += penalty.probability;
    if (total < 1) continue;
    list.fault("penalties on down " + std::to_string(down) + " add up to 1 or more",
               "give probabilities per snap");
    return;
  }
}

std::vector<PuntRule> punts_from(const Part& list) {
  std::vector<PuntRule> rules;
  each_item(list, [&](const Part& part) {
    const Part band = part.at("yards_to_goal");
    rules.push_back({band_from_json(band.value, band.pointer, band.faults),
                     part.number("touchback"), part.get<double>("return_touchdown", 0.0),
                     pmf_from(part.at("net"))});
  });
  for (int y = 1; y <= 99; ++y) {
    bool covered = false;
    for (const PuntRule& rule : rules) covered = covered || rule.yards_to_goal.contains(y);
    if (covered) continue;
    list.fault("no rule for " + std::to_string(y) + " yards to goal", "cover 1 to 99");
    break;
  }
  return rules;
}

std::vector<StartKind> starts_from(const Part& starts) {
  std::vector<StartKind> kinds;
  each_entry(starts, [&](const Part& part, const std::string& id) {
    kinds.push_back({id, part.number("share"), own_yards_from(part.at("start"))});
  });
  std::vector<double*> shares;
  shares.reserve(kinds.size());
  for (StartKind& kind : kinds) shares.push_back(&kind.share);
  settle_shares(shares, starts);
  return kinds;
}

void read_kicks(const Part& document, Setting& setting) {
  const Part goal = document.at("field_goal");
  setting.field_goal = {goal.number("intercept"), goal.number("slope"), goal.integer("longest")};
  setting.punts = punts_from(document.at("punt"));
  const Part kickoff = document.at("kickoff");
  setting.kickoff = {own_yards_from(kickoff.at("start")), kickoff.number("return_touchdown")};
}

}  // namespace

void read_game(const Part& document, Setting& setting) {
  setting.rules = rules_from(document.at("rules"));
  setting.success = success_from(document.at("definitions"));
  setting.drives_per_game = document.number("drives_per_game");
  setting.end_of_half_share = document.get<double>("end_of_half_share", 0.0);
  setting.fumble_lost = fumbles_from(document.at("fumble_lost"));
  if (document.has("bad_snap"))
    setting.bad_snap = {document.at("bad_snap").number("probability"),
                        document.at("bad_snap").number("fumble_lost")};
  setting.turnovers = turnovers_from(document.at("turnovers"));
  setting.levels = levels_from(document.at("levels"));
  setting.shells = shells_from(document.at("shells"));
  setting.quality = quality_from(document.at("quality").at("classes"));
  setting.penalties = penalties_from(document.at("penalties"));
  check_penalties(setting.penalties, document.at("penalties"));
  setting.fourth_down = fourth_down_from(document.at("fourth_down"));
  read_kicks(document, setting);
  setting.starts = starts_from(document.at("starts"));
}

}  // namespace callfit

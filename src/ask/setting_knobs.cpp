#include <callfit/stats/logit.hpp>

#include <ask/knob.hpp>
#include <ask/log_odds_move.hpp>

#include <array>

namespace callfit::ask {
namespace {

std::string rule_text(const SituationRule& rule) { return plain(rule_slug(rule)); }

void set_shell(ShellRule& rule, std::size_t shell, double value, const std::string& path) {
  std::vector<double> shares(rule.share.begin(), rule.share.end());
  set_share(shares, shell, value, path);
  std::copy(shares.begin(), shares.end(), rule.share.begin());
}

Knob shell_knob(const Setting& setting, std::size_t rule, std::size_t shell) {
  const SituationRule& when = setting.shells[rule].when;
  const std::string name(enum_words<Shell>[shell]);
  const std::string path = "shell." + rule_slug(when) + '.' + name;
  Knob knob{path, plain(name) + " shells, " + rule_text(when)};
  knob.get = [rule, shell](const Question& q) { return q.setting.shells[rule].share[shell]; };
  knob.set = [rule, shell, path](Question& q, double value) {
    set_shell(q.setting.shells[rule], shell, value, path);
  };
  return knob;
}

// The last rule is the usual one; the others move with it by the same log-odds.
Knob all_shells_knob(std::size_t shell) {
  const std::string name(enum_words<Shell>[shell]);
  const std::string path = "shell.all." + name;
  Knob knob{path, plain(name) + " shells, usually; all situations move along"};
  knob.get = [shell](const Question& q) { return q.setting.shells.back().share[shell]; };
  knob.set = [shell, path](Question& q, double value) {
    const std::vector<ShellRule> before = q.setting.shells;
    const auto at = [&](double shift) {
      q.setting.shells = before;
      for (ShellRule& rule : q.setting.shells)
        set_shell(rule, shell, shifted(rule.share[shell], shift), path);
      return q.setting.shells.back().share[shell];
    };
    move_to(at, value, path);
  };
  return knob;
}

constexpr std::array choice_words{"go", "punt", "field_goal"};

double& choice(FourthDownRule& rule, std::size_t c) {
  return c == 0 ? rule.go : c == 1 ? rule.punt : rule.field_goal;
}

double choice(const FourthDownRule& rule, std::size_t c) {
  return c == 0 ? rule.go : c == 1 ? rule.punt : rule.field_goal;
}

Knob fourth_down_knob(const Setting& setting, std::size_t r, std::size_t c) {
  const SituationRule& when = setting.fourth_down[r].when;
  const std::string path = "fourth_down." + rule_slug(when) + '.' + choice_words[c];
  Knob knob{path, "fourth down, " + rule_text(when) + ": " + plain(choice_words[c])};
  knob.get = [r, c](const Question& q) { return choice(q.setting.fourth_down[r], c); };
  knob.set = [r, c, path](Question& q, double value) {
    FourthDownRule& rule = q.setting.fourth_down[r];
    std::vector<double> shares{rule.go, rule.punt, rule.field_goal};
    set_share(shares, c, value, path);
    for (std::size_t i = 0; i < shares.size(); ++i) choice(rule, i) = shares[i];
  };
  return knob;
}

Knob policy_knob() {
  Knob knob{"policy",
            "fourth downs: common choices (table), or what gains most (best)",
            KnobUnit::word,
            0,
            1,
            all_words<FourthDownPolicy>()};
  knob.get = [](const Question& q) { return static_cast<double>(q.options.policy); };
  knob.set = [](Question& q, double value) {
    q.options.policy = value < 0.5 ? FourthDownPolicy::table : FourthDownPolicy::best;
  };
  return knob;
}

Knob drives_knob() {
  constexpr double most_drives = 30;
  Knob knob{"drives_per_game", "drives per game", KnobUnit::number, 1, most_drives};
  knob.get = [](const Question& q) { return q.setting.drives_per_game; };
  knob.set = [](Question& q, double value) { q.setting.drives_per_game = value; };
  return knob;
}

Knob level_knob(const Level& level, std::size_t i) {
  Knob knob{"level." + level.id + ".weight", "weight of " + plain(level.id) + " snaps"};
  knob.get = [i](const Question& q) { return q.weighting.levels[i].weight; };
  knob.set = [i](Question& q, double value) { q.weighting.levels[i].weight = value; };
  return knob;
}

}  // namespace

void add_setting_knobs(const Question& question, Knobs& knobs) {
  const Setting& setting = question.setting;
  constexpr Stale plan{true, false, true, false, false};
  const auto add = [&knobs](Knob knob, const Stale& stale) {
    knob.stale = stale;
    knobs.push_back(std::move(knob));
  };
  for (std::size_t s = 0; s < shell_count && !setting.shells.empty(); ++s)
    add(all_shells_knob(s), plan);
  for (std::size_t rule = 0; rule < setting.shells.size(); ++rule)
    for (std::size_t s = 0; s < shell_count; ++s) add(shell_knob(setting, rule, s), plan);
  for (std::size_t r = 0; r < setting.fourth_down.size(); ++r)
    for (std::size_t c = 0; c < choice_words.size(); ++c)
      add(fourth_down_knob(setting, r, c), plan);
  for (std::size_t i = 0; i < question.weighting.levels.size(); ++i)
    add(level_knob(question.weighting.levels[i], i), {false, false, false, true, true});
  add(policy_knob(), plan);
  add(drives_knob(), {});
}

}  // namespace callfit::ask

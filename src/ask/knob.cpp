#include <callfit/ask/paths.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/base/nearest.hpp>

#include <ask/knob.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace callfit::ask {
namespace {

constexpr std::size_t suggested = 3;

bool is_level_weight(const std::string& path) { return path.starts_with("level."); }

// Two demands of one family on one measure would share a path; the second gets ".2".
void make_unique(std::vector<Knob>& knobs) {
  std::map<std::string, int> seen;
  for (Knob& knob : knobs) {
    const int count = ++seen[knob.path];
    if (count > 1) knob.path += '.' + std::to_string(count);
  }
}

std::string band_slug(const char* name, const Band& band) {
  const bool has_low = band.low > Band{}.low;
  const bool has_high = band.high < Band{}.high;
  if (!has_low && !has_high) return "";
  if (has_low && has_high && band.low == band.high) return fmt::format("{}_{}", name, band.low);
  if (!has_high) return fmt::format("{}_{}_up", name, band.low);
  return fmt::format("{}_{}_to_{}", name, has_low ? band.low : 1, band.high);
}

std::vector<const Knob*> with_words(const Knobs& knobs, const std::string& words, bool labels) {
  // "deep outside completion" is what he does; what is demanded of him has to be named as that.
  const bool of_demands = words.find("demand") != std::string::npos ||
                          words.find("level") != std::string::npos ||
                          words.find("weight") != std::string::npos;
  std::vector<const Knob*> fitting;
  for (const Knob& knob : knobs) {
    if (knob.path.starts_with("demand.") && !of_demands) continue;
    if (path_has_words(knob.path, labels ? knob.about : std::string(), words))
      fitting.push_back(&knob);
  }
  return fitting;
}

[[noreturn]] void refuse_several(const std::string& path, const std::vector<const Knob*>& fitting) {
  std::vector<std::string> first;
  for (std::size_t i = 0; i < std::min(fitting.size(), suggested); ++i)
    first.push_back(fitting[i]->path);
  refuse_at(path, fmt::format("fits {} paths", fitting.size()),
            "name one, such as " + either_of(first));
}

double wanted_value(const Knob& knob, const Question& question, const Change& change) {
  if (knob.unit == KnobUnit::word) {
    const auto found = std::find(knob.words.begin(), knob.words.end(), change.word);
    if (found == knob.words.end())
      refuse_at(knob.path, "does not take " + (change.word.empty() ? "a number" : change.word),
                "use " + either_of(knob.words));
    return static_cast<double>(found - knob.words.begin());
  }
  if (change.way == Change::Way::word)
    refuse_at(knob.path, "takes a number, not " + change.word, "for example 0.4, 40% or x1.2");
  return change.way == Change::Way::scale ? change.amount * knob.get(question) : change.amount;
}

// Level weights make a new profile out of the same charts.
void reweigh(Question& question) {
  if (!question.tape || question.tape->charts.empty())
    refuse_at("level", "a level's weight needs the charts, a finished profile no longer has them",
              "give the chart (.csv) in place of the profile");
  const Setting& population = question.ground->setting;
  auto profile = build_profile(question.profile->name, question.tape->charts, population,
                               question.weighting, question.tape->like);
  question.mean = std::make_shared<const Player>(callfit::mean_player(profile, population));
  question.profile = std::make_shared<const Profile>(std::move(profile));
}

void apply(Turned& turned, const Knobs& knobs, const Change& change) {
  const Knob& knob = find_knob(knobs, change.path);
  const double wanted = wanted_value(knob, turned.question, change);
  const bool moves = knob.get(turned.question) != wanted;
  turned.question = with_knob(turned.question, knob, wanted);
  if (moves) turned.stale = turned.stale | knob.stale;
}

std::string parent_of(const std::string& path) { return path.substr(0, path.rfind('.')); }

}  // namespace

Knobs knobs_of(const Question& question) {
  Knobs knobs;
  const auto add = [&](const auto& add_part, const Stale& stale) {
    const std::size_t first = knobs.size();
    add_part(question, knobs);
    for (std::size_t i = first; i < knobs.size(); ++i) knobs[i].stale = knobs[i].stale | stale;
  };
  add(add_call_knobs, {true, true, false, false, false});
  add(add_demand_knobs, {true, false, false, false, false});
  add(add_player_knobs, {false, false, false, true, false});
  add(add_setting_knobs, {});
  make_unique(knobs);
  return knobs;
}

const Knob& find_knob(const Knobs& knobs, const std::string& path) {
  const auto found = std::find_if(knobs.begin(), knobs.end(),
                                  [&path](const Knob& knob) { return knob.path == path; });
  if (found != knobs.end()) return *found;
  // Words of the path go before words of its label.
  std::vector<const Knob*> fitting = with_words(knobs, path, false);
  if (fitting.empty()) fitting = with_words(knobs, path, true);
  // "deep outside completion" means the rate, not its conditions: what the others lie under.
  const auto above_all = [&fitting](const Knob* knob) {
    return std::all_of(fitting.begin(), fitting.end(), [knob](const Knob* other) {
      return other == knob || other->path.starts_with(knob->path + '.');
    });
  };
  const auto one = std::find_if(fitting.begin(), fitting.end(), above_all);
  if (one != fitting.end()) return **one;
  if (!fitting.empty()) refuse_several(path, fitting);
  std::vector<std::string> paths;
  paths.reserve(knobs.size());
  for (const Knob& knob : knobs) paths.push_back(knob.path);
  const auto near = nearest_words(path, paths, suggested);
  refuse_at(path, "no such path",
            near.empty() ? "ask for the list of paths" : "did you mean " + either_of(near) + "?");
}

Question with_knob(const Question& question, const Knob& knob, double value) {
  if (!(value >= knob.low && value <= knob.high))
    refuse_at(knob.path, fmt::format("cannot be {:.6g}", value),
              fmt::format("it takes {:.6g} to {:.6g}", knob.low, knob.high));
  Question out = question;
  if (knob.get(question) != value) knob.set(out, value);
  return out;
}

Turned turned(const Question& question, const Knobs& knobs, const std::vector<Change>& changes) {
  Turned out{question, {}};
  for (const Change& change : changes)
    if (is_level_weight(change.path)) apply(out, knobs, change);
  if (out.stale.tape) reweigh(out.question);
  for (const Change& change : changes)
    if (!is_level_weight(change.path)) apply(out, knobs, change);
  return out;
}

std::vector<Moved> moved_knobs(const Knobs& knobs, const Question& before, const Question& after,
                               const std::vector<Change>& changes) {
  constexpr double visible = 1e-12;
  std::vector<Moved> list;
  std::vector<const Knob*> turned;
  turned.reserve(changes.size());
  for (const Change& change : changes) turned.push_back(&find_knob(knobs, change.path));
  const bool all_calls = std::any_of(turned.begin(), turned.end(), [](const Knob* knob) {
    return knob->path.starts_with("call.all.");
  });
  for (const Knob& knob : knobs) {
    const double was = knob.get(before);
    const double is = knob.get(after);
    if (std::abs(is - was) <= visible * std::max(1.0, std::abs(was))) continue;
    const bool asked = std::find(turned.begin(), turned.end(), &knob) != turned.end();
    const bool along = std::any_of(list.begin(), list.end(), [&knob](const Moved& moved) {
      return moved.path == parent_of(knob.path);
    });
    const bool summary = knob.path.starts_with("call.all.");
    const bool under_all = all_calls && knob.path.starts_with("call.");
    if ((along || summary || under_all) && !asked) continue;
    Moved entry{knob.path, knob.about, knob.unit, was, is, "", "", asked};
    if (knob.unit == KnobUnit::word) {
      entry.word_before = knob.words[static_cast<std::size_t>(was)];
      entry.word_after = knob.words[static_cast<std::size_t>(is)];
    }
    list.push_back(std::move(entry));
  }
  return list;
}

std::string rule_slug(const SituationRule& rule) {
  std::string slug;
  for (const auto& [name, band] : {std::pair{"down", rule.down}, std::pair{"to_go", rule.to_go},
                                   std::pair{"yards_to_goal", rule.yards_to_goal}}) {
    const std::string part = band_slug(name, band);
    if (!part.empty()) slug += (slug.empty() ? "" : "_") + part;
  }
  return slug.empty() ? "any" : slug;
}

void set_share(std::vector<double>& shares, std::size_t index, double value,
               const std::string& path) {
  if (shares[index] == value) return;
  constexpr double rounding = 1e-12;  // what shares of 0 and 1 may miss after many changes
  double rest = 0;
  for (std::size_t i = 0; i < shares.size(); ++i)
    if (i != index) rest += shares[i];
  if (rest < rounding)
    refuse_at(path, "nothing else is called there to take the rest", "set another first");
  const double factor = (1 - value) / rest;
  for (double& share : shares) share *= factor;
  shares[index] = value;
}

}  // namespace callfit::ask

// Everything that a question can turn, by path: one table for tries, sweeps, levers and even
// points.
#pragma once

#include <ask/question.hpp>
#include <callfit/ask/knob.hpp>

#include <functional>
#include <string>
#include <vector>

namespace callfit::ask {

/// What yards can be set to, either way.
inline constexpr double farthest_yards = 99;

/// What of a stand has to be made anew when a knob is turned.
struct Stale {
  bool fit = false;          ///< what is demanded, or how often
  bool calls = false;        ///< how often what is called
  bool plan = false;         ///< the game around it, or when what is called
  bool quarterback = false;  ///< his rates or gains
  bool tape = false;         ///< how his snaps are weighed

  Stale operator|(const Stale& other) const {
    return {fit || other.fit, calls || other.calls, plan || other.plan,
            quarterback || other.quarterback, tape || other.tape};
  }
};

/// One quantity. A share is in [0, 1]; a word's value is its index in `words`.
struct Knob {
  std::string path;   ///< "rate.deep_outside.completion"
  std::string about;  ///< "completion, deep outside"
  KnobUnit unit = KnobUnit::share;
  double low = 0, high = 1;  ///< what set() takes
  std::vector<std::string> words = {};
  std::function<double(const Question&)> get = {};
  std::function<void(Question&, double)> set = {};  ///< the value lies in [low, high]
  Stale stale = {};
};

using Knobs = std::vector<Knob>;

/// Every knob of a question. Paths are unique; they depend on the scheme's and the setting's lists,
/// not on values, so knobs of one question serve its changed copies.
Knobs knobs_of(const Question& question);

/// Throws InputError that names the nearest paths.
const Knob& find_knob(const Knobs& knobs, const std::string& path);

/// A question with changes made, and what they make stale.
struct Turned {
  Question question;
  Stale stale;
};

/// The changes made in order, level weights first (they rebuild the profile from its charts).
/// Throws InputError for an unknown path, a value out of range or of the wrong kind, and for level
/// weights without charts.
Turned turned(const Question& question, const Knobs& knobs, const std::vector<Change>& changes);

/// The question with one knob at `value`; throws InputError when it is out of range.
Question with_knob(const Question& question, const Knob& knob, double value);

/// Left out unless asked: conditions of a rate or call that itself moved, overall call shares, and
/// calls of single situations where all move together.
std::vector<Moved> moved_knobs(const Knobs& knobs, const Question& before, const Question& after,
                               const std::vector<Change>& changes);

/// A situation rule as a path's part: "down_3_to_go_7_to_10", "any".
std::string rule_slug(const SituationRule& rule);

/// "demand.boot.sack", of the scheme's d-th demand; ".level" and ".weight" follow.
std::string demand_path(const Scheme& scheme, std::size_t d);

/// What turns his own measure: "rate.boot.completion.two_high", "gain.boot.yac"; empty where
/// nothing does.
std::string measure_path(const FamilyPopulation& family, Measure measure,
                         const std::optional<Cell>& cell);

// The parts of the table.
void add_call_knobs(const Question& question, Knobs& knobs);
void add_demand_knobs(const Question& question, Knobs& knobs);
void add_player_knobs(const Question& question, Knobs& knobs);
void add_setting_knobs(const Question& question, Knobs& knobs);

/// Sets one of `shares` (which sum to 1) and rescales the others in proportion. Throws InputError
/// when the others have nothing to rescale.
void set_share(std::vector<double>& shares, std::size_t index, double value,
               const std::string& path);

}  // namespace callfit::ask

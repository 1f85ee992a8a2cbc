// Everything that a question can turn, by path: one table for what-ifs, sweeps, levers and
// break-evens. docs/questions.md lists the paths.
#pragma once

#include <callfit/ask/question.hpp>
#include <callfit/base/names.hpp>

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

enum class KnobUnit { share, yards, number, word };

/// One quantity. A share is in [0, 1]; a word's value is its index in `words`.
struct Knob {
  std::string path;   ///< "rate.deep_outside.completion"
  std::string about;  ///< "completion, deep outside"
  KnobUnit unit = KnobUnit::share;
  double low = 0, high = 1;  ///< what set() takes
  std::vector<std::string> words = {};
  std::function<double(const Question&)> get = {};
  std::function<void(Question&, double)> set = {};  ///< the value lies in [low, high]
};

/// Every knob of a question. Paths are unique; they depend on the scheme's and the setting's lists,
/// not on values, so knobs of one question serve its changed copies.
std::vector<Knob> knobs_of(const Question& question);

/// Throws InputError that names the nearest paths.
const Knob& find_knob(const std::vector<Knob>& knobs, const std::string& path);

/// A change to one knob: set to `amount`, multiplied by it, or set to `word`.
struct Change {
  enum class Way { set, scale, word };
  std::string path;
  Way way = Way::set;
  double amount = 0;
  std::string word;
};

/// The question with the changes made in order, level weights first (they rebuild the profile from
/// its charts). Throws InputError for an unknown path, a value out of range or of the wrong kind,
/// and for level weights without charts.
Question changed(const Question& question, const std::vector<Change>& changes);

/// The question with one knob at `value`; throws InputError when it is out of range.
Question with_knob(const Question& question, const Knob& knob, double value);

/// A knob whose value differs between two questions.
struct Moved {
  std::string path, about;
  KnobUnit unit = KnobUnit::share;
  double before = 0, after = 0;
  std::string word_before, word_after;
  bool asked = false;  ///< named by a change, not merely rescaled along
};

/// Left out unless asked: conditions of a rate or call that itself moved, and overall call shares.
std::vector<Moved> moved_knobs(const Question& before, const Question& after,
                               const std::vector<Change>& changes);

/// A situation rule as a path's part: "down_3_to_go_7_to_10", "any".
std::string rule_slug(const SituationRule& rule);

}  // namespace callfit

// What can be turned, by path: "rate.deep_outside.completion", "call.first.boot",
// "demand.boot.sack.weight", ... docs/questions.md lists the paths.
#pragma once

#include <string>
#include <vector>

namespace callfit {

enum class KnobUnit { share, yards, number, word };

/// One path of a stand with its present value. A share is in [0, 1]; a word's value is its index
/// in `words`.
struct KnobValue {
  std::string path;
  std::string label;  ///< "completion, deep outside"
  KnobUnit unit = KnobUnit::share;
  double now = 0;
  double low = 0, high = 1;  ///< what can be set
  std::vector<std::string> words;
};

/// A path whose value differs between two stands.
struct Moved {
  std::string path, label;
  KnobUnit unit = KnobUnit::share;
  double before = 0, after = 0;
  std::string word_before, word_after;
  bool asked = false;  ///< named by a change, not merely rescaled along
};

}  // namespace callfit

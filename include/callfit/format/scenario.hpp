// Changes as text: PATH=VALUE words and scenario files. docs/questions.md describes both.
#pragma once

#include <callfit/ask/case.hpp>
#include <callfit/ask/sweep_range.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// "PATH=0.4", "PATH=40%", "PATH=x1.2" (scaled) or "PATH=word". Throws InputError.
Change parse_change(const std::string& text);

/// "PATH=from:to:n", numbers as in parse_change(). Throws InputError.
SweepRange parse_sweep(const std::string& text);

/// A set of changes kept beside a scheme.
struct Scenario {
  std::string name, about;
  std::vector<Change> changes;
};

/// "callfit-scenario/1" text:
/// {"format": "callfit-scenario/1", "name": "...", "about": "...", "changes":
///  [{"path": "rate.deep_outside.completion", "set": 0.4}, {"path": "call.first.boot", "scale": 2},
///   {"path": "policy", "set": "best"}]}
/// Throws one InputError with everything that is wrong.
Scenario parse_scenario(std::string_view text, const std::string& source);

}  // namespace callfit

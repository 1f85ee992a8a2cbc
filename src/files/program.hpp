// Another program, started without a shell: each word arrives as it is.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace callfit {

struct Ended {
  bool well = false;      ///< with exit code 0
  std::string last_line;  ///< of what it said on standard error
};

/// Runs the program that words[0] names, found as the shell finds it, to its end: it reads nothing
/// and its standard output goes nowhere. Ctrl-C ends it rather than callfit. Empty where there is
/// no such program.
std::optional<Ended> run_program(const std::vector<std::string>& words);

}  // namespace callfit

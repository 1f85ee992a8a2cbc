// What is wrong (or odd) with an input, and where. Readers collect findings and throw them
// together as one InputError, so that a user mends a file in one go.
#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>
#include <vector>

namespace callfit {

/// Where in an input something was found. `line` counts from 1, 0 when there is none (JSON);
/// `field` is a CSV column or a JSON pointer ("/families/2/kind"), empty when none applies.
struct Place {
  std::string file;
  std::size_t line = 0;
  std::string field;
};

enum class Severity { error, warning, notice };

/// One finding: `what` is wrong and the `mend` that would make it right.
struct Finding {
  Place place;
  std::string what;
  std::string mend;
  Severity severity = Severity::error;
};

using Findings = std::vector<Finding>;

/// "file:line: field: what; mend" in one line, parts left out where empty.
std::string to_text(const Finding& finding);

bool has_errors(const Findings& findings);

/// Bad input: carries every finding; what() is their text, one a line, at most
/// `shown_at_most` of them and then a count of the rest.
class InputError : public std::runtime_error {
 public:
  static constexpr std::size_t shown_at_most = 50;

  explicit InputError(Findings findings);
  explicit InputError(Finding finding);

  const Findings& findings() const { return findings_; }

 private:
  Findings findings_;
};

/// Throws an InputError of one finding at a JSON pointer, empty where no place applies.
[[noreturn]] void refuse_at(const std::string& pointer, const std::string& what,
                            const std::string& mend);

}  // namespace callfit

// What a box score says, as files and cases write it.
#pragma once

#include <callfit/profile/around.hpp>

#include <optional>

namespace callfit {

/// Counts as everybody can look them up; what is left out is not known.
struct BoxScore {
  std::optional<double> attempts, completions, interceptions, sacks, scrambles;

  bool holds_any() const { return completions || interceptions || sacks || scrambles; }
  bool fewer_attempts_than_ends() const;
  /// Of attempts, or of all dropbacks that are known.
  BoxCounts counts() const;
};

}  // namespace callfit

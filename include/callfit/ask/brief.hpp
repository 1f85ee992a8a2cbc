// The facts of a half page: chosen from results by fixed rules, worded in report.
#pragma once

#include <callfit/ask/levers.hpp>
#include <callfit/ask/question.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// What one family is worth: net points a game lost when the first quarterback plays that family
/// with the second one's rates and gains, all else his own.
struct Reason {
  std::string family;  ///< label
  UncertainValue net_per_game;
};

/// The rate whose uncertainty moves points most.
struct Doubt {
  std::string about;
  double value = 0;
  Interval interval90;
  double snaps = 0;  ///< charted trials behind it
  /// Net points a game between the ends of the interval, first order.
  double swing = 0;
};

struct Brief {
  std::string first, second, scheme;
  Difference difference;
  double first_fit = 100, second_fit = 100;
  double first_snaps = 0, second_snaps = 0;
  std::vector<Reason> reasons;        ///< at most three, by size
  std::optional<Doubt> doubt;         ///< of the first
  std::optional<LeverValue> wrinkle;  ///< the call share whose gain is largest among the sure ones
};

/// Both questions stand on one ground.
Brief make_brief(const Question& first, const Question& second, const DrawOptions& options,
                 const Progress& progress = {});

}  // namespace callfit

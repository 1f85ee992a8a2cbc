// Where one quarterback, or one scheme, makes up for what another has ahead.
#pragma once

#include <callfit/ask/knob.hpp>
#include <callfit/ask/question.hpp>

#include <optional>
#include <string>

namespace callfit {

struct BreakEven {
  std::string path, about;
  KnobUnit unit = KnobUnit::share;
  double now = 0;  ///< of the first
  /// Value at which both are worth the same, all else at the posterior means; the one nearest to
  /// `now` where there are several, nothing where there is none within [low, high].
  std::optional<double> value = {};
  double low = 0, high = 1;
  double net_at_low = 0, net_at_high = 0;  ///< net points a game, first minus second
  double residual = 0;                     ///< net points per drive left at `value`
  bool more_helps = true;                  ///< the first is ahead above `value`, else below
  /// Chance that the first's own value lies on the side where he is ahead; rates and gains only.
  std::optional<double> chance = {};
  UncertainValue net_now = {};  ///< net points a game, first minus second, as things stand
};

/// Both questions stand on one ground. With `both` the second is turned along, as for two schemes
/// of one quarterback. The root is bracketed (TOMS 748, through Boost.Math). Throws InputError for
/// a path that is unknown or a word.
BreakEven break_even(const Question& first, const Question& second, const std::string& path,
                     bool both, const DrawOptions& options, const Progress& progress = {});

}  // namespace callfit

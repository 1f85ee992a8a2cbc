// Which single change is worth most: exact derivatives of points and fit by every rate, call share
// and mean gain, shown per realistic step.
#pragma once

#include <callfit/ask/knob.hpp>
#include <callfit/ask/question.hpp>

#include <string>
#include <vector>

namespace callfit {

/// One knob's derivatives. A rate moves its cells along, a call share takes from the others in
/// proportion, a mean gain moves by proportional odds: as the knob's set() does.
struct LeverValue {
  std::string path, about;
  KnobUnit unit = KnobUnit::share;
  bool is_call = false;
  bool of_handoffs = false;  ///< a rate or gain that is the runner's, not the quarterback's
  double now = 0;
  /// What is realistic: one standard deviation between players of the setting for a rate or a
  /// mean gain, 10 percentage points for a call share. Signed toward more net points.
  double step = 0;
  double points_slope = 0, net_slope = 0;  ///< per drive and unit of the knob
  double fit_slope = 0;                    ///< of the fit (0 to 100) per unit; rates and gains only
  UncertainValue net_per_game = {};        ///< net_slope x step x drives per game, over draws
};

/// Knobs that drives depend on, by the size of net_per_game. The derivative at the posterior means,
/// with the interval of the derivative over draws (first order: the step itself is not replayed).
std::vector<LeverValue> levers_of(const Question& question, const DrawOptions& options,
                                  const Progress& progress = {});

/// Derivative of net points per drive by each demand's measure (indexed like Scheme::demands), per
/// spread of the demand, in the demanded direction; 0 where drives do not use the measure. The
/// average quarterback of the setting stands for everyone.
std::vector<double> points_per_spread(const Matchup& matchup);

}  // namespace callfit

// The population that a setting pulls toward, estimated from the charts of several quarterbacks.
#pragma once

#include <callfit/chart/snap.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/setting/setting.hpp>
#include <callfit/stats/beta_binomial.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace callfit {

/// Quarterbacks whose snaps a rate needs before its population is fitted at all.
inline constexpr std::size_t fewest_quarterbacks = 3;

/// One rate of one family. Without a `fit` there were too few quarterbacks, or one outcome only.
struct RatePopulationFit {
  std::size_t family = 0;  ///< index into Setting::families
  Rate rate = Rate::completion;
  std::size_t quarterbacks = 0;  ///< with at least one trial
  double snaps = 0;              ///< trials
  std::optional<BetaBinomialFit> fit;

  /// What the setting should say: the fit; its mean with the old spread where the charts cannot
  /// tell quarterbacks apart; the old one without a fit.
  RatePopulation better_than(const RatePopulation& old) const;
};

struct PopulationFit {
  std::vector<RatePopulationFit> rates;  ///< every rate that the setting knows, by family
  double snaps = 0;                      ///< used
  double other_levels = 0;               ///< left out: of another level than the setting's
};

/// One element of `quarterbacks` holds the charts of one of them. Only snaps of the setting's own
/// level count. Throws InputError as build_profile() does.
PopulationFit fit_population(const std::vector<std::vector<Chart>>& quarterbacks,
                             const Setting& setting, const std::vector<FamilyAlias>& like = {});

}  // namespace callfit

// How well a quarterback's rates meet what a scheme demands.
#pragma once

#include <callfit/profile/player.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/scheme/scheme.hpp>
#include <callfit/setting/setting.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// One demand held against a player.
struct DemandResult {
  std::size_t family = 0;   ///< index into Scheme::families
  std::size_t demand = 0;   ///< index into Scheme::demands
  double estimate = 0;      ///< the player's value
  double level = 0;         ///< what is demanded
  double shortfall = 0;     ///< >= 0, in spreads between players; 0 when met
  double surplus = 0;       ///< >= 0, in spreads; reported, never rewarded
  double weight = 0;        ///< call share of the family x weight of the demand
  double contribution = 0;  ///< to D^2; contributions of all demands add up to it
};

struct FitResult {
  double distance_squared = 0;  ///< D^2 = sum w s^2 / sum w (Mahalanobis form where correlated)
  double fit = 100;             ///< 100 exp(-D^2 / 2), in (0, 100]
  std::vector<DemandResult> demands;
};

/// A scheme tied to a setting: each family's place in the setting, its overall call share, and the
/// spreads that shortfalls are measured in. Throws InputError when a family is in neither.
struct BoundScheme {
  Scheme scheme;
  std::vector<std::size_t> setting_family;  ///< indexed like Scheme::families
  std::vector<double> call_share;           ///< overall, sums to 1
  std::vector<double> spread;               ///< indexed like Scheme::demands, > 0
};

/// `situation_weight` as in overall_shares(); drive code supplies how often situations come up.
BoundScheme bind_scheme(const Scheme& scheme, const Setting& setting,
                        const std::vector<double>& situation_weight);

FitResult fit_of(const Player& player, const BoundScheme& scheme, const Setting& setting);

/// A strength that the scheme does not use.
struct UnusedStrength {
  std::size_t family = 0;  ///< index into Setting::families
  Measure measure = Measure::completion;
  double estimate = 0;
  double population = 0;  ///< the setting's mean
  double surplus = 0;     ///< in spreads, > 0
  double call_share = 0;  ///< how often the scheme calls the family
};

struct FitReport {
  FitResult at_mean;                 ///< at the profile's posterior means
  Interval fit90;                    ///< over posterior draws
  double worse_share = 0;            ///< share of the setting's quarterbacks who fit worse
  std::vector<Interval> estimate90;  ///< of each demand's estimate, indexed like demands
  std::vector<UnusedStrength> unused;
};

struct FitOptions {
  std::uint64_t seed = 0;
  std::size_t draws = 2000;
  unsigned threads = 0;
};

FitReport fit_report(const Profile& profile, const BoundScheme& scheme, const Setting& setting,
                     const FitOptions& options);

}  // namespace callfit

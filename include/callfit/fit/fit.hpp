// How well a quarterback's rates meet what a scheme demands.
#pragma once

#include <callfit/profile/player.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/scheme/scheme.hpp>
#include <callfit/setting/setting.hpp>

#include <cstddef>
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
  double contribution = 0;  ///< to D^2; those of all demands add up to it, in their order
};

/// D^2 = sum w s^2 / sum w over shortfalls s. Where a family's shortfalls are correlated, their
/// part is the least Mahalanobis distance over which everything demanded is met
/// (shortfall_distance), which never grows when a rate gets better.
struct FitResult {
  double distance_squared = 0;
  std::vector<DemandResult> demands;
};

/// A scheme tied to a setting: each family's place in the setting, how often it is called, and the
/// spreads that shortfalls are measured in.
struct BoundScheme {
  Scheme scheme;
  std::vector<std::size_t> setting_family;  ///< indexed like Scheme::families
  std::vector<double> call_share;           ///< of all plays, sums to 1
  std::vector<double> spread;               ///< indexed like Scheme::demands, > 0
};

/// Families are called evenly until drive code, which knows what comes up, sets `call_share`.
/// Throws InputError when the setting does not know a family, when a demand asks for something that
/// the family's population lacks, or when a correlation matrix is not one.
BoundScheme bind_scheme(const Scheme& scheme, const Setting& setting);

/// Signed shortfall in spreads: positive when less than what is asked is given.
double short_by(double given, const Demand& demand, double spread);

/// Parts of D^2, for one quarterback (or one draw of him) after another. The scheme must outlive
/// it.
class DistanceSheet {
 public:
  explicit DistanceSheet(const BoundScheme& scheme);

  /// Of what is given of each demand's measure, indexed like Scheme::demands, as is the result,
  /// which the next call overwrites. All 0 where nothing that is ever called is demanded.
  const std::vector<double>& parts(const std::vector<double>& given);

 private:
  /// The demands of a family that are correlated.
  struct Together {
    std::vector<std::size_t> demands;
    std::vector<double> root_weight, missing;
    const std::vector<std::vector<double>>* correlation = nullptr;
  };
  void correlate(Together& together, const std::vector<double>& given);

  const BoundScheme& scheme_;
  std::vector<double> part_, weight_;
  std::vector<Together> together_;
  double total_ = 0;
};

FitResult fit_of(const Player& player, const BoundScheme& scheme, const Setting& setting);

}  // namespace callfit

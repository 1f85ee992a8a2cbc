// How quarterbacks of one level of play differ: latent traits, jointly normal on the log-odds
// scale, and the rates and gains that hang on them. docs/model.md, "The population".
#pragma once

#include <callfit/base/names.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// What changed between the place where snaps were charted and the place that is asked about.
enum class PlaceChange { same_caller, new_caller, new_team, new_level };
inline constexpr std::size_t place_change_count = 4;

template <>
inline constexpr auto enum_words<PlaceChange> =
    std::to_array<std::string_view>({"same_caller", "new_caller", "new_team", "new_level"});

/// One trait u of a quarterback: the sum of factors that traits share and of what is its own,
/// u = spread (sum_k loading_k z_k + sqrt(1 - sum_k loading_k^2) e), z and e standard normal.
struct Trait {
  std::string id;
  double spread = 0;             ///< standard deviation between quarterbacks, log-odds
  std::vector<double> loadings;  ///< one a factor; their squares add up to at most 1
  double opponent_spread = 0;    ///< standard deviation of what one opponent does to it
  double game_spread = 0;        ///< and of what is left of one game
  /// How much of an opponent's effect goes with his effects on other traits: those on two traits
  /// have the correlation of the product of their loadings; in [-1, 1].
  double opponent_loading = 0;
  /// Correlation of the trait between two places, by move, in [-1, 1].
  std::array<double, place_change_count> carries_over{1, 1, 1, 1};
  bool assumed = false;  ///< whether its spreads are assumed, not measured
};

/// A rate, or a gain in categories, of one play family: the chance of category c and above is
/// logistic(thresholds[c - 1] + slope u + own), own normal with `own_spread`. A rate has one
/// threshold, the log-odds of its mean.
struct Quantity {
  std::string id;  ///< "quick_middle.completion"
  std::size_t trait = 0;
  double slope = 1;
  double own_spread = 0;
  std::vector<double> thresholds;  ///< log-odds, falling
  /// Counted on snaps that tell of the trait through another quantity already: its counts move it
  /// alone.
  bool follows = false;
  bool assumed = false;  ///< whether its own spread is
};

/// Snaps of another level see u + shift + v, v normal and shared by all snaps of that level.
struct OtherLevel {
  std::string id;
  std::vector<double> shift;   ///< one a trait
  std::vector<double> spread;  ///< standard deviation of v, one a trait
};

struct Population {
  std::size_t factors = 0;
  std::vector<Trait> traits;
  std::vector<Quantity> quantities;
  std::vector<OtherLevel> levels;
  double assumed_scale = 1;  ///< what assumed spreads are multiplied by before they are used

  std::optional<std::size_t> find_trait(std::string_view id) const;
  std::optional<std::size_t> find_quantity(std::string_view id) const;
  std::optional<std::size_t> find_level(std::string_view id) const;
};

/// The correlation of two traits that factors make: sum_k loading_ak loading_bk, 1 of a trait with
/// itself.
double correlation(const Population& population, std::size_t a, std::size_t b);

/// The population with every assumed spread multiplied by `assumed_scale` times `scale`; in what
/// comes back assumed_scale is 1. Thresholds stay.
Population with_assumed_spreads(Population population, double scale = 1);

}  // namespace callfit

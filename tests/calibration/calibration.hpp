// Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari & Gelman 2018,
// arXiv:1804.06788): draw players, chart them, infer, and see where the truth ranks.
#pragma once

#include "world.hpp"

#include <callfit/profile/draws.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/setting/setting.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace callfit::testing {

/// What is looked at: a rate, a rate in a cell, or a mean gain.
struct Quantity {
  std::string name;
  std::size_t family = 0;
  std::optional<Rate> rate;
  std::optional<Cell> cell;
  std::optional<GainPart> gain;
};

std::vector<Quantity> quantities_of(const ChartPlan& plan);

inline constexpr std::size_t ranked_draws = 39;  ///< ranks 0..39; 2..37 hold 90%
inline constexpr std::size_t histogram_bins = 20;

struct Coverage {
  Quantity quantity;
  std::size_t players = 0;
  std::size_t in_draws90 = 0;     ///< truth within the middle 36 of 40 ranks of posterior draws
  std::size_t in_interval90 = 0;  ///< truth within the profile's own interval; rates and cells
  std::array<std::size_t, histogram_bins> histogram{};

  double share() const { return static_cast<double>(in_draws90) / static_cast<double>(players); }
  double interval_share() const {
    return static_cast<double>(in_interval90) / static_cast<double>(players);
  }
  /// Chi-square of the rank histogram against uniform, 19 degrees of freedom.
  double chi_square() const;
  double p_value() const;
};

/// Where one player's truth lay.
struct Outcome {
  std::size_t rank = 0;  ///< among the posterior draws
  bool in_interval = false;
};

/// By quantity, of outcomes by player and quantity.
std::vector<Coverage> coverage_of(const std::vector<Quantity>& quantities,
                                  const std::vector<std::vector<Outcome>>& outcomes);

/// Of each quantity, where the player's truth lies for the profile and `ranked_draws` draws of it.
std::vector<Outcome> outcomes_of(const std::vector<Quantity>& quantities, const Player& player,
                                 const Setting& truth, const Profile& profile,
                                 const Setting& believed, const DrawKey& key);

struct Experiment {
  ChartPlan plan;
  std::size_t players = 2000;
  std::uint64_t seed = 1;
};

/// Players come from `truth`, inference believes `believed` (the same unless a test wants to fail).
std::vector<Coverage> calibrate(const Experiment& experiment, const Setting& truth,
                                const Setting& believed);

}  // namespace callfit::testing

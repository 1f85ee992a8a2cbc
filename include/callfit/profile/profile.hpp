// What the tape says about a quarterback, and how sure one can be of it.
#pragma once

#include <callfit/chart/rate.hpp>
#include <callfit/chart/snap.hpp>
#include <callfit/population/evidence.hpp>
#include <callfit/population/posterior.hpp>
#include <callfit/profile/around.hpp>
#include <callfit/profile/player.hpp>
#include <callfit/setting/setting.hpp>
#include <callfit/stats/interval.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// Counts behind a rate: `made` of `of` snaps as charted, and after level and age weights.
struct RateCounts {
  double made = 0, of = 0;
  double effective_made = 0, effective_of = 0;
};

/// Posterior of a rate: Beta(mean * strength, (1 - mean) * strength). Where no snap is shifted (by
/// its level or its charted shell) this is the exact conjugate posterior; else it has the exact
/// posterior's mean and variance.
struct RateEstimate {
  double mean = 0;      ///< in (0, 1)
  double strength = 0;  ///< alpha + beta: how many snaps the estimate is worth
  RateCounts counts;

  Interval interval90() const;
};

/// Posterior of a rate under one condition. The family's rate theta is learned from the total of
/// its snaps; how the cell departs from it, from what was counted inside against the total. Given
/// theta: Beta(kappa m + n q, kappa (1 - m) + n (1 - q)), m = logistic(logit theta + shift),
/// q = logistic(logit theta + departure), n = effective_of / (1 - the cell's share of the family's
/// snaps).
struct CellEstimate {
  Cell cell = Cell::one_high;
  Rate rate = Rate::completion;
  double shift = 0;
  double kappa = 0;
  /// Log-odds of what was counted inside against all snaps of the same level; finite.
  double departure = 0;
  RateCounts counts;
  double mean = 0;  ///< this and the interval with theta integrated out and shells balanced
  Interval interval;
};

/// Dirichlet posterior over the bins of a gain population.
struct GainEstimate {
  std::vector<double> alpha;  ///< one a bin, > 0
  double snaps = 0;           ///< charted gains behind it
  double effective_snaps = 0;
};

struct FamilyProfile {
  std::string id;  ///< of the setting's family
  double snaps = 0, effective_snaps = 0;
  std::array<std::optional<RateEstimate>, rate_count> rates;
  std::vector<CellEstimate> cells;
  std::optional<GainEstimate> depth, yac, run;

  bool unseen() const { return snaps == 0; }
};

struct GameContribution {
  std::string game;
  std::string level;
  double snaps = 0, effective_snaps = 0;
};

/// How snaps are weighed, and what is known around them; start from `weighting_of(setting)` and
/// change what the user asks for.
struct Weighting {
  std::vector<Level> levels;
  Around around = {};
};

Weighting weighting_of(const Setting& setting);

struct Profile {
  std::string name;
  std::string setting;  ///< id of the setting that it was pulled toward
  Weighting weighting;
  std::vector<GameContribution> games;
  std::vector<FamilyProfile> families;  ///< indexed like Setting::families
  GainEstimate scramble, sack;
  /// Where the setting says how quarterbacks differ together (Setting::population): what was
  /// counted of its quantities, and what that leaves open of all of them at once. Rates and gains
  /// above are that posterior's means and spreads.
  Evidence evidence;
  std::vector<SeasonDeparture> departures;  ///< of charted games, where season totals were given
  std::optional<Posterior> joint;

  double snaps() const;
};

/// A profile from charts of one quarterback's snaps.
///
/// `like` maps chart family ids to the setting's (scheme families with a `like`); ids that are
/// the setting's own need no entry. Throws InputError for a family or a level that the setting
/// does not know, naming chart and line.
struct FamilyAlias {
  std::string id;
  std::string like;
};
Profile build_profile(const std::string& name, const std::vector<Chart>& charts,
                      const Setting& setting, const Weighting& weighting,
                      const std::vector<FamilyAlias>& like = {});

/// Every rate at its posterior mean.
Player mean_player(const Profile& profile, const Setting& setting);

}  // namespace callfit

// Where the throws go: completion by lane and depth, from charts.
#pragma once

#include <callfit/chart/snap.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/setting/setting.hpp>

#include <vector>

namespace callfit {

/// Throws into one lane at one depth. The completion is Beta: the population of the families that
/// were thrown there (means and strengths averaged over the throws), updated with the throws.
struct ThrowZone {
  Lane lane = Lane::middle;
  Cell depth = Cell::short_throw;  ///< short, intermediate or deep
  double throws = 0;               ///< charted
  double share = 0;                ///< of all throws with lane and depth charted
  RateEstimate completion;
  double usual = 0;  ///< the population's completion of those families
};

/// Zones that were thrown to, by depth then lane. Level weights apply, level shifts do not.
std::vector<ThrowZone> throw_zones(const std::vector<Chart>& charts, const Setting& setting,
                                   const Weighting& weighting,
                                   const std::vector<FamilyAlias>& like = {});

}  // namespace callfit

// What each charted snap of one quarterback brings to the evidence about him.
#pragma once

#include <callfit/population/response.hpp>
#include <profile/joint_tape.hpp>

#include <cstddef>
#include <vector>

namespace callfit {

/// A snap that counts, with its weight in rates and cells (`weighted.weight`) and in the joint
/// posterior.
struct EvidenceSnap {
  WeightedSnap weighted;
  double counted = 1;
};

struct SnapEvidence {
  std::vector<EvidenceSnap> snaps;  ///< in the order of the charts, which must outlive them
  std::vector<SnapCounts> counts;   ///< SnapCounts::snap is a place in `snaps`
};

/// Of a setting with a population; the tallies are those of build_profile()'s evidence. Throws
/// InputError as it does.
SnapEvidence snap_evidence(const std::vector<Chart>& charts, const Setting& setting,
                           const Weighting& weighting, const std::vector<FamilyAlias>& like);

/// The profile as it would be if every snap counted `weight`, above 0, of what it does; `joint` the
/// posterior of evidence weighed so.
Profile at_tape_weight(const Profile& profile, const Setting& setting, double weight,
                       Posterior joint);

}  // namespace callfit

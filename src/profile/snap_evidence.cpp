#include <profile/snap_evidence.hpp>

#include <profile/joint.hpp>

namespace callfit {
namespace {

void weigh_counts(RateCounts& counts, double weight) {
  counts.effective_made *= weight;
  counts.effective_of *= weight;
}

}  // namespace

SnapEvidence snap_evidence(const std::vector<Chart>& charts, const Setting& setting,
                           const Weighting& weighting, const std::vector<FamilyAlias>& like) {
  SnapEvidence out;
  JointTape tape(setting, weighting, true);
  weigh(charts, setting, weighting, like, [&](const WeightedSnap& weighted) {
    tape.add(weighted);
    out.snaps.push_back({weighted, tape.share_counted(weighted)});
  });
  out.counts = tape.told().by_snap;
  return out;
}

Profile at_tape_weight(const Profile& profile, const Setting& setting, double weight,
                       Posterior joint) {
  Profile out = profile;
  out.joint = std::move(joint);
  for (FamilyProfile& family : out.families) {
    for (auto& rate : family.rates)
      if (rate) weigh_counts(rate->counts, weight);
    for (CellEstimate& cell : family.cells) weigh_counts(cell.counts, weight);
  }
  apply_joint(out, setting);
  return out;
}

}  // namespace callfit

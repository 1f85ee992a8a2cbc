#include <callfit/profile/profile.hpp>
#include <profile/cells.hpp>

#include <numeric>

namespace callfit {
namespace {

// A profile's cells laid out by cell and rate.
struct Cells {
  CellTable known;
  std::array<std::array<const CellEstimate*, rate_count>, cell_count> estimate{};

  explicit Cells(const FamilyProfile& family) {
    for (const CellEstimate& cell : family.cells) {
      const auto c = static_cast<std::size_t>(cell.cell);
      const auto r = static_cast<std::size_t>(cell.rate);
      known[c][r] = CellRate{cell.shift, cell.kappa};
      estimate[c][r] = &cell;
    }
  }
};

// Bins in proportion to their parameters.
std::vector<double> shares_of(const GainEstimate& gain) {
  const double total = std::accumulate(gain.alpha.begin(), gain.alpha.end(), 0.0);
  std::vector<double> shares = gain.alpha;
  for (double& share : shares) share /= total;
  return shares;
}

std::vector<double> shares_of(const std::optional<GainEstimate>& gain) {
  return gain ? shares_of(*gain) : std::vector<double>{};
}

}  // namespace

Player mean_player(const Profile& profile, const Setting& setting) {
  const ShellMix mix = shell_mix(setting);
  Player player;
  player.name = profile.name;
  for (const FamilyProfile& tape : profile.families) {
    const Cells cells(tape);
    PlayerFamily family;
    for (std::size_t r = 0; r < rate_count; ++r)
      if (tape.rates[r]) family.rate[r] = tape.rates[r]->mean;
    lay_out_cells(family, cells.known, mix,
                  [&](std::size_t c, std::size_t r, const CellRate&, double) {
                    return cells.estimate[c][r]->mean;
                  });
    family.depth_bins = shares_of(tape.depth);
    family.yac_bins = shares_of(tape.yac);
    family.run_bins = shares_of(tape.run);
    player.families.push_back(std::move(family));
  }
  player.scramble_bins = shares_of(profile.scramble);
  player.sack_bins = shares_of(profile.sack);
  return player;
}

}  // namespace callfit

#include <callfit/profile/profile.hpp>
#include <callfit/stats/beta.hpp>
#include <profile/cells.hpp>
#include <profile/draw_source.hpp>

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

// A player whose every part is some value of the profile's part: `rate` of a RateEstimate, `cell`
// of a CellEstimate with its posterior given the family's rate, `bins` of a GainEstimate.
template <class RateValue, class CellValue, class Bins>
Player player_of(const Profile& profile, const Setting& setting, const RateValue& rate,
                 const CellValue& cell, const Bins& bins) {
  const ShellMix mix = shell_mix(setting);
  const auto bins_of = [&](const std::optional<GainEstimate>& gain) {
    return gain ? bins(*gain) : std::vector<double>{};
  };
  Player player;
  player.name = profile.name;
  for (const FamilyProfile& tape : profile.families) {
    const Cells cells(tape);
    const FamilySource source = source_of(tape);
    PlayerFamily family;
    for (std::size_t r = 0; r < rate_count; ++r)
      if (tape.rates[r]) family.rate[r] = rate(*tape.rates[r]);
    lay_out_cells(
        family, cells.known, mix, [&](std::size_t c, std::size_t r, const CellRate&, double) {
          const CellSource& from = *source.cells[c][r];
          return cell(*cells.estimate[c][r], CellGivenFamily(from.shift, from.departure)
                                                 .posterior(family.rate[r], from.kappa, from.of));
        });
    family.depth_bins = bins_of(tape.depth);
    family.yac_bins = bins_of(tape.yac);
    family.run_bins = bins_of(tape.run);
    player.families.push_back(std::move(family));
  }
  player.scramble_bins = bins(profile.scramble);
  player.sack_bins = bins(profile.sack);
  return player;
}

}  // namespace

Player mean_player(const Profile& profile, const Setting& setting) {
  return player_of(
      profile, setting, [](const RateEstimate& rate) { return rate.mean; },
      [](const CellEstimate& cell, const Beta&) { return cell.mean; },
      [](const GainEstimate& gain) {
        const double total = std::accumulate(gain.alpha.begin(), gain.alpha.end(), 0.0);
        std::vector<double> shares = gain.alpha;
        for (double& share : shares) share /= total;
        return shares;
      });
}

Player draw_player(const Profile& profile, const Setting& setting, std::uint64_t seed,
                   std::uint64_t index) {
  Stream stream(seed_for(seed, profile.name), Purpose::player_draw, index);
  return player_of(
      profile, setting,
      [&](const RateEstimate& rate) {
        return draw(Beta::of_mean(rate.mean, rate.strength), stream);
      },
      [&](const CellEstimate&, const Beta& posterior) { return draw(posterior, stream); },
      [&](const GainEstimate& gain) { return draw_dirichlet(gain.alpha, stream); });
}

}  // namespace callfit

#include <callfit/profile/edited_cell.hpp>
#include <profile/cell_moments.hpp>

namespace callfit {

void estimate_cells(FamilyProfile& family, const ShellMix& mix) {
  const FamilySource source = source_of(family);
  std::array<std::optional<std::array<Moments, shell_count>>, rate_count> shells;
  for (CellEstimate& cell : family.cells) {
    const auto c = static_cast<std::size_t>(cell.cell);
    const auto r = static_cast<std::size_t>(cell.rate);
    if (c < shell_count && !shells[r]) shells[r] = shell_moments(source, r, mix);
    const Moments moments =
        c < shell_count ? (*shells[r])[c] : cell_moments(*source.rates[r], *source.cells[c][r]);
    cell.mean = moments.mean;
    cell.interval = interval90(Beta::of_moments(moments.mean, moments.variance));
  }
}

}  // namespace callfit

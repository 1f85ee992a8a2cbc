// What a charted shell moves a rate by.
#pragma once

#include <profile/cells.hpp>
#include <profile/rate_tally.hpp>

#include <array>
#include <cstddef>

namespace callfit {

/// Log-odds of each shell's rate less the family's, for the setting's average quarterback with his
/// shells balanced; the last one, 0, is for snaps without a shell.
std::array<double, shell_slots> shell_shifts(const CellTable& table, std::size_t rate, double mean,
                                             const ShellMix& mix);

}  // namespace callfit

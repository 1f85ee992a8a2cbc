// Where the parts of a gain stand in what has something of each.
#pragma once

#include <callfit/setting/setting.hpp>

#include <cstddef>
#include <vector>

namespace callfit {

/// Scrambles and sacks gain the same in all families: for these `family` does not matter below.
constexpr bool is_shared(GainPart part) {
  return part == GainPart::scramble || part == GainPart::sack;
}

/// The shares of bins, or what stands by bin: of a player, of derivatives. Empty where the family
/// does not have the part.
template <class Of>
auto& bins_of(Of& of, std::size_t family, GainPart part) {
  if (part == GainPart::scramble) return of.scramble_bins;
  if (part == GainPart::sack) return of.sack_bins;
  auto& own = of.families[family];
  return part == GainPart::depth ? own.depth_bins
         : part == GainPart::yac ? own.yac_bins
                                 : own.run_bins;
}

/// A gain that is a family's own, of a setting or a profile; nullptr where it does not have the
/// part.
template <class Family>
auto own_gain(Family& family, GainPart part) {
  const auto pointer = [](auto& gain) { return gain ? &*gain : nullptr; };
  if (part == GainPart::depth) return pointer(family.depth);
  return part == GainPart::yac ? pointer(family.yac) : pointer(family.run);
}

/// The gain of a setting, shared ones too.
template <class AnySetting>
auto population_of(AnySetting& setting, std::size_t family, GainPart part)
    -> decltype(&setting.sack_gain) {
  if (part == GainPart::scramble) return &setting.scramble_gain;
  if (part == GainPart::sack) return &setting.sack_gain;
  return own_gain(setting.families[family], part);
}

}  // namespace callfit

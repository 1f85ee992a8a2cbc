// Call mixes within what a coordinator would bear.
#pragma once

#include <callfit/ask/tailor_limits.hpp>
#include <callfit/scheme/scheme.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace callfit::ask {

/// One list of call shares: a situation, against one shell where the coordinator calls it
/// differently.
struct MixBlock {
  std::size_t situation = 0;
  std::optional<std::size_t> shell;
};
std::vector<MixBlock> mix_blocks(const Scheme& scheme);
std::vector<double>& shares_of(Scheme& scheme, const MixBlock& block);
const std::vector<double>& shares_of(const Scheme& scheme, const MixBlock& block);

/// Bounds of one block's shares. What a situation never calls stays out of it: the coordinator has
/// his reasons, and near the goal some calls cannot be made at all.
struct MixBounds {
  std::vector<double> low, high;
  std::vector<bool> pass;
  double pass_low = 0, pass_high = 1;
};
MixBounds mix_bounds(const Scheme& scheme, const MixBlock& block, const TailorLimits& limits);

/// The largest sum of share x worth over shares within the bounds that sum to 1: a linear choice
/// with one side condition, solved exactly. The bounds must leave room.
std::vector<double> best_mix(const MixBounds& bounds, const std::vector<double>& worth);

/// The same where a share's growth over `was` loses surprise: each family's worth falls by
/// 2 fade (worth - usual) per unit added, usual = sum was x worth (TailorLimits::fade). Separable
/// and concave: shares are filled in small steps, the most worth first (a greedy choice is exact
/// for such sums up to the step, move / 400).
std::vector<double> best_mix(const MixBounds& bounds, const std::vector<double>& worth,
                             const std::vector<double>& was, const TailorLimits& limits);

}  // namespace callfit::ask

// The scheme bent to the quarterback: the call mix that gains most within what a coordinator would
// bear.
#pragma once

#include <callfit/ask/question.hpp>
#include <callfit/ask/whatif.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit {

struct TailorLimits {
  double move = 0.05;      ///< how far each share may move, in (0, 1]
  double run_pass = 0.05;  ///< how far a situation's share of passes may move, in [0, 1]
  /// Of a call's added share d the part fade x d is expected by the defence and is worth no more
  /// than the mix as it was (see Package::fade); fade x move at most 1.
  double fade = 0;
};

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

struct Tailored {
  Scheme called;      ///< what to call
  Scheme surprising;  ///< what it is worth as: with the expected part taken out (fade)
  WhatIf effect;
  /// Net points per drive, for the posterior means: before, with `surprising`, and if every snap
  /// had its own best mix within the limits, known to the caller in full (no fade).
  double net_before = 0, net_after = 0, net_bound = 0;
  int evaluations = 0;
};

/// Sequential quadratic programming (SLSQP, Kraft 1994, through NLopt) with exact gradients. Throws
/// InputError for limits out of range.
Tailored tailor(const Question& question, const TailorLimits& limits, const DrawOptions& options,
                const Progress& progress = {});

}  // namespace callfit

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

/// Which way a family's share should go; `stay` gives way to the others, `hold` does not.
enum class Turn { less, stay, hold, more };

/// The shares of one block, bent: each that should go one way by TailorLimits::move (to 0 or 1 at
/// most), those that should stay give or take the balance in proportion. Where that balance or the
/// limit on passes is too much, all moves shrink alike. `passes`: whether a family is a pass.
std::vector<double> bent_mix(const std::vector<double>& share, const std::vector<Turn>& turns,
                             const std::vector<bool>& passes, const TailorLimits& limits);

}  // namespace callfit::ask

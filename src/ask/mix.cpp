#include <ask/mix.hpp>

#include <algorithm>
#include <cmath>

namespace callfit::ask {
namespace {

// The shares that stay give or take the balance of the others.
void settle_balance(std::vector<double>& move, const std::vector<double>& share,
                    const std::vector<Turn>& turns, double limit) {
  double more = 0, less = 0, staying = 0, most = 0;
  for (std::size_t f = 0; f < share.size(); ++f) {
    (turns[f] == Turn::more ? more : less) += std::abs(move[f]);
    if (turns[f] != Turn::stay) continue;
    staying += share[f];
    most = std::max(most, share[f]);
  }
  // What the staying ones can bear is the limit on the largest of them, and no more than they have.
  const double bearable = staying > 0 ? std::min(1.0, limit / most) * staying : 0;
  const double more_by = more > less + bearable ? (less + bearable) / more : 1;
  const double less_by = less > more + bearable ? (more + bearable) / less : 1;
  const double balance = less * less_by - more * more_by;
  for (std::size_t f = 0; f < share.size(); ++f) {
    if (turns[f] == Turn::stay) move[f] = staying > 0 ? balance * share[f] / staying : 0;
    if (turns[f] == Turn::more) move[f] *= more_by;
    if (turns[f] == Turn::less) move[f] *= less_by;
  }
}

}  // namespace

std::vector<MixBlock> mix_blocks(const Scheme& scheme) {
  std::vector<MixBlock> blocks;
  for (std::size_t s = 0; s < scheme.situations.size(); ++s) {
    const auto& own = scheme.situations[s].share_by_shell;
    const auto differs =
        std::count_if(own.begin(), own.end(), [](const auto& list) { return list.has_value(); });
    if (differs < static_cast<std::ptrdiff_t>(shell_count)) blocks.push_back({s, std::nullopt});
    for (std::size_t shell = 0; shell < shell_count; ++shell)
      if (own[shell]) blocks.push_back({s, shell});
  }
  return blocks;
}

std::vector<double>& shares_of(Scheme& scheme, const MixBlock& block) {
  CallSituation& situation = scheme.situations[block.situation];
  return block.shell ? *situation.share_by_shell[*block.shell] : situation.share;
}

const std::vector<double>& shares_of(const Scheme& scheme, const MixBlock& block) {
  const CallSituation& situation = scheme.situations[block.situation];
  return block.shell ? *situation.share_by_shell[*block.shell] : situation.share;
}

std::vector<double> bent_mix(const std::vector<double>& share, const std::vector<Turn>& turns,
                             const std::vector<bool>& passes, const TailorLimits& limits) {
  std::vector<double> move(share.size(), 0.0);
  for (std::size_t f = 0; f < share.size(); ++f) {
    if (turns[f] == Turn::more) move[f] = std::min(limits.move, 1 - share[f]);
    if (turns[f] == Turn::less) move[f] = -std::min(limits.move, share[f]);
  }
  settle_balance(move, share, turns, limits.move);
  double more_passes = 0;
  for (std::size_t f = 0; f < share.size(); ++f)
    if (passes[f]) more_passes += move[f];
  const double shrink =
      std::abs(more_passes) > limits.run_pass ? limits.run_pass / std::abs(more_passes) : 1;
  std::vector<double> bent = share;
  for (std::size_t f = 0; f < share.size(); ++f) bent[f] += shrink * move[f];
  return bent;
}

}  // namespace callfit::ask

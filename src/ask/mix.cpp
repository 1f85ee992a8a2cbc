#include <ask/mix.hpp>

#include <algorithm>
#include <numeric>

namespace callfit::ask {
namespace {

// Adds to the shares of the chosen families, best first, until they have grown by `room`.
void fill_up(std::vector<double>& share, const MixBounds& bounds, const std::vector<double>& worth,
             double room, const std::optional<bool>& passes) {
  std::vector<std::size_t> order(share.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&worth](std::size_t a, std::size_t b) { return worth[a] > worth[b]; });
  for (const std::size_t f : order) {
    if (passes && bounds.pass[f] != *passes) continue;
    const double more = std::min(room, bounds.high[f] - share[f]);
    if (more <= 0) continue;
    share[f] += more;
    room -= more;
  }
}

double sum_of(const std::vector<double>& share, const MixBounds& bounds, bool passes) {
  double sum = 0;
  for (std::size_t f = 0; f < share.size(); ++f)
    if (bounds.pass[f] == passes) sum += share[f];
  return sum;
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

MixBounds mix_bounds(const Scheme& scheme, const MixBlock& block, const TailorLimits& limits) {
  MixBounds bounds;
  const std::vector<double>& share = shares_of(scheme, block);
  double passes = 0;
  for (std::size_t f = 0; f < share.size(); ++f) {
    bounds.low.push_back(std::max(0.0, share[f] - limits.move));
    bounds.high.push_back(share[f] > 0 ? std::min(1.0, share[f] + limits.move) : 0.0);
    bounds.pass.push_back(scheme.families[f].kind == FamilyKind::pass);
    if (bounds.pass[f]) passes += share[f];
  }
  bounds.pass_low = std::max(0.0, passes - limits.run_pass);
  bounds.pass_high = std::min(1.0, passes + limits.run_pass);
  return bounds;
}

std::vector<double> best_mix(const MixBounds& bounds, const std::vector<double>& worth) {
  std::vector<double> share = bounds.low;
  fill_up(share, bounds, worth, 1 - std::accumulate(share.begin(), share.end(), 0.0), std::nullopt);
  const double passes = sum_of(share, bounds, true);
  if (passes >= bounds.pass_low && passes <= bounds.pass_high) return share;
  // The side condition binds: passes and runs each fill up to their own total.
  const double wanted = std::clamp(passes, bounds.pass_low, bounds.pass_high);
  share = bounds.low;
  fill_up(share, bounds, worth, wanted - sum_of(share, bounds, true), true);
  fill_up(share, bounds, worth, 1 - wanted - sum_of(share, bounds, false), false);
  return share;
}

namespace {

// Fills by small steps until `room` is spent; worth falls as shares grow past what was.
class Filler {
 public:
  Filler(const MixBounds& bounds, const std::vector<double>& worth, const std::vector<double>& was,
         const TailorLimits& limits)
      : bounds_(bounds),
        worth_(worth),
        was_(was),
        fade_(limits.fade),
        step_(limits.move / 400),
        usual_(std::inner_product(was.begin(), was.end(), worth.begin(), 0.0)) {}

  void fill(std::vector<double>& share, double room, const std::optional<bool>& passes) const {
    while (room > 1e-12) {
      const std::size_t best = most_worth(share, passes);
      if (best == share.size()) return;
      const double more = std::min({step_, room, bounds_.high[best] - share[best]});
      share[best] += more;
      room -= more;
    }
  }

 private:
  double next_worth(const std::vector<double>& share, std::size_t f) const {
    const double added = std::max(0.0, share[f] - was_[f]);
    return worth_[f] - 2 * fade_ * added * std::max(0.0, worth_[f] - usual_);
  }

  std::size_t most_worth(const std::vector<double>& share,
                         const std::optional<bool>& passes) const {
    std::size_t best = share.size();
    for (std::size_t f = 0; f < share.size(); ++f) {
      if ((passes && bounds_.pass[f] != *passes) || share[f] >= bounds_.high[f] - 1e-15) continue;
      if (best == share.size() || next_worth(share, f) > next_worth(share, best)) best = f;
    }
    return best;
  }

  const MixBounds& bounds_;
  const std::vector<double>& worth_;
  const std::vector<double>& was_;
  double fade_, step_, usual_;
};

}  // namespace

std::vector<double> best_mix(const MixBounds& bounds, const std::vector<double>& worth,
                             const std::vector<double>& was, const TailorLimits& limits) {
  if (limits.fade == 0) return best_mix(bounds, worth);
  const Filler filler(bounds, worth, was, limits);
  std::vector<double> share = bounds.low;
  filler.fill(share, 1 - std::accumulate(share.begin(), share.end(), 0.0), std::nullopt);
  const double passes = sum_of(share, bounds, true);
  if (passes >= bounds.pass_low && passes <= bounds.pass_high) return share;
  const double wanted = std::clamp(passes, bounds.pass_low, bounds.pass_high);
  share = bounds.low;
  filler.fill(share, wanted - sum_of(share, bounds, true), true);
  filler.fill(share, 1 - wanted - sum_of(share, bounds, false), false);
  return share;
}

}  // namespace callfit::ask

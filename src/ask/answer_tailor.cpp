// The scheme bent to the quarterback: a linear model of net points in the call shares (exact
// derivatives), the best mix of every block under it, and again from there, until the exact points
// no longer rise (sequential linear programming).
#include <ask/answers.hpp>
#include <ask/mix.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/drive/best_mix.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace callfit::ask {
namespace {

constexpr int most_rounds = 6;
constexpr double settled_points = 1e-6;  // net points per drive

void require_limits(const TailorLimits& limits) {
  const auto refuse = [](const char* field, const char* what, const char* mend) {
    throw InputError(Finding{{"", 0, field}, what, mend});
  };
  if (!(limits.move > 0 && limits.move <= 1))
    refuse("/limits/move", "shares cannot move by that much", "take a move above 0, at most 1");
  if (!(limits.run_pass >= 0 && limits.run_pass <= 1))
    refuse("/limits/run_pass", "runs and passes cannot move by that much", "take 0 to 1");
  if (!(limits.fade >= 0 && limits.fade * limits.move <= 1))
    refuse("/limits/fade", "the surprise fades too fast for moves of that size",
           "keep the fade times the move at 1 or below");
}

using Mix = std::vector<std::vector<double>>;  // shares of each block

class Tailor {
 public:
  Tailor(const Standing& standing, const TailorLimits& limits)
      : standing_(standing),
        scheme_(standing.question.scheme),
        limits_(limits),
        blocks_(mix_blocks(scheme_)) {
    for (const MixBlock& block : blocks_) {
      bounds_.push_back(mix_bounds(scheme_, block, limits));
      was_.push_back(shares_of(scheme_, block));
    }
  }

  /// The best mix found; net points before and after, and gradients taken.
  struct Found {
    Mix mix;
    double before = 0, after = 0;
    int evaluations = 0;
  };

  Found search() const {
    Found found{was_, 0, 0, 0};
    PointGradients gradient = gradient_at(was_);
    found.before = found.after = gradient.net_points.value;
    found.evaluations = 1;
    for (int round = 0; round < most_rounds; ++round) {
      const Mix best = best_under(gradient.net_points);
      Mix next = best;
      PointGradients there = gradient_at(next);
      ++found.evaluations;
      // Where the linear model promised too much, half the way is tried.
      if (there.net_points.value < found.after) {
        next = between(found.mix, best);
        there = gradient_at(next);
        ++found.evaluations;
      }
      const double gain = there.net_points.value - found.after;
      if (gain <= 0) break;
      found.mix = std::move(next);
      found.after = there.net_points.value;
      gradient = std::move(there);
      if (gain < settled_points) break;
    }
    return found;
  }

  /// `surprising`: with the part that the defence expects taken out.
  Scheme scheme_of(const Mix& mix, bool surprising) const {
    Scheme scheme = scheme_;
    for (std::size_t b = 0; b < blocks_.size(); ++b)
      shares_of(scheme, blocks_[b]) = surprising ? without_expected(mix[b], was_[b]) : mix[b];
    return scheme;
  }

  double bound() const {
    return best_net_points(
        *standing_.matchup->plan, *standing_.mean, standing_.matchup->starts,
        [this](std::size_t situation, std::size_t shell, const std::vector<double>& worth) {
          const std::vector<double> mix = best_mix(bounds_[block_of(situation, shell)], worth);
          return std::inner_product(mix.begin(), mix.end(), worth.begin(), 0.0);
        });
  }

 private:
  PointGradients gradient_at(const Mix& mix) const {
    const DrivePlan plan = standing_.matchup->plan->with_calls(scheme_of(mix, true));
    return differentiate(plan, *standing_.mean, standing_.matchup->starts);
  }

  Mix best_under(const DriveGradient& by) const {
    Mix mix;
    for (std::size_t b = 0; b < blocks_.size(); ++b)
      mix.push_back(best_mix(bounds_[b], slope_of(blocks_[b], by), was_[b], limits_));
    return mix;
  }

  std::vector<double> slope_of(const MixBlock& block, const DriveGradient& by) const {
    const auto& own = scheme_.situations[block.situation].share_by_shell;
    std::vector<double> slope(scheme_.families.size(), 0.0);
    for (std::size_t shell = 0; shell < shell_count; ++shell) {
      const bool here = block.shell ? *block.shell == shell : !own[shell];
      for (std::size_t f = 0; here && f < slope.size(); ++f)
        slope[f] += by.call[block.situation][shell][f];
    }
    return slope;
  }

  static Mix between(const Mix& a, const Mix& b) {
    Mix mix = a;
    for (std::size_t block = 0; block < a.size(); ++block)
      for (std::size_t f = 0; f < a[block].size(); ++f)
        mix[block][f] = (a[block][f] + b[block][f]) / 2;
    return mix;
  }

  std::vector<double> without_expected(const std::vector<double>& share,
                                       const std::vector<double>& was) const {
    std::vector<double> out = share;
    for (std::size_t f = 0; f < share.size(); ++f) {
      const double added = std::max(0.0, share[f] - was[f]);
      const double expected = limits_.fade * added * added;
      out[f] -= expected;
      for (std::size_t g = 0; g < share.size(); ++g) out[g] += expected * was[g];
    }
    return out;
  }

  // The block whose list is called in a situation against a shell.
  std::size_t block_of(std::size_t situation, std::size_t shell) const {
    std::size_t plain = 0;
    for (std::size_t b = 0; b < blocks_.size(); ++b) {
      if (blocks_[b].situation != situation) continue;
      if (blocks_[b].shell == shell) return b;
      if (!blocks_[b].shell) plain = b;
    }
    return plain;
  }

  const Standing& standing_;
  const Scheme& scheme_;
  TailorLimits limits_;
  std::vector<MixBlock> blocks_;
  std::vector<MixBounds> bounds_;
  Mix was_;
};

}  // namespace

TailorAnswer answer(Memory& memory, const TailorRequest& request, const Progress& progress) {
  require_limits(request.limits);
  constexpr std::size_t steps = 3;
  Standing& before = memory.standing(request.stand);
  const Tailor tailor(before, request.limits);
  const Tailor::Found found = tailor.search();
  if (progress) progress(1, steps);
  TailorAnswer answer;
  answer.about = about_of(before);
  answer.limits = request.limits;
  answer.net_before = found.before;
  answer.net_after = found.after;
  answer.evaluations = found.evaluations;
  answer.net_bound = tailor.bound();
  if (progress) progress(2, steps);
  constexpr Stale calls{true, true, false, false, false};
  Question question = before.question;
  question.scheme = tailor.scheme_of(found.mix, true);
  Standing after = memory.turned(before, std::move(question), calls);
  answer.effect = effect_of(memory, before, after);
  Question called = before.question;
  called.scheme = tailor.scheme_of(found.mix, false);
  answer.effect.moved = moved_knobs(memory.knobs(before), before.question, called, {});
  if (progress) progress(steps, steps);
  return answer;
}

}  // namespace callfit::ask

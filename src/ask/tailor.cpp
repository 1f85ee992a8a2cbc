#include <callfit/ask/tailor.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/drive/best_mix.hpp>

#include <ask/slopes.hpp>

#include <nlopt.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace callfit {
namespace {

constexpr int most_evaluations = 60;
constexpr double settled_points = 1e-7;  // net points per drive
constexpr double sum_tolerance = 1e-9;

void require_limits(const TailorLimits& limits) {
  const auto refuse = [](const std::string& what, const std::string& mend) {
    throw InputError(Finding{{}, what, mend});
  };
  if (!(limits.move > 0 && limits.move <= 1))
    refuse("shares cannot move by that much", "take a move above 0, at most 1");
  if (!(limits.run_pass >= 0 && limits.run_pass <= 1))
    refuse("runs and passes cannot move by that much", "take 0 to 1");
  if (!(limits.fade >= 0 && limits.fade * limits.move <= 1))
    refuse("the surprise fades too fast for moves of that size",
           "keep the fade times the move at 1 or below");
}

class Problem {
 public:
  Problem(const Question& question, const TailorLimits& limits)
      : question_(question),
        limits_(limits),
        matchup_(matchup_of(question)),
        player_(question.mean_player()),
        blocks_(mix_blocks(question.scheme)),
        families_(question.scheme.families.size()) {
    for (const MixBlock& block : blocks_)
      bounds_.push_back(mix_bounds(question.scheme, block, limits));
  }

  std::size_t size() const { return blocks_.size() * families_; }
  std::size_t block_count() const { return blocks_.size(); }
  const MixBounds& bounds(std::size_t block) const { return bounds_[block]; }
  const Matchup& matchup() const { return matchup_; }
  const Player& player() const { return player_; }
  std::size_t families() const { return families_; }

  std::vector<double> start() const {
    std::vector<double> x;
    for (const MixBlock& block : blocks_) {
      const auto& share = shares_of(question_.scheme, block);
      x.insert(x.end(), share.begin(), share.end());
    }
    return x;
  }

  /// `surprising`: with the part that the defence expects taken out.
  Scheme scheme_at(const std::vector<double>& x, bool surprising) const {
    Scheme scheme = question_.scheme;
    for (std::size_t b = 0; b < blocks_.size(); ++b) {
      std::vector<double> share = block_at(x, b);
      if (surprising) share = without_expected(share, b);
      tidy(share);
      shares_of(scheme, blocks_[b]) = std::move(share);
    }
    return scheme;
  }

  double net(const std::vector<double>& x, std::vector<double>& gradient) const {
    const DrivePlan plan = matchup_.plan.value().with_calls(scheme_at(x, true));
    const DriveGradient by = differentiate(plan, player_, matchup_.starts).net_points;
    if (!gradient.empty())
      for (std::size_t b = 0; b < blocks_.size(); ++b) add_gradient(x, b, by, gradient);
    return by.value;
  }

  /// The block whose list is called in a situation against a shell.
  std::size_t block_of(std::size_t situation, std::size_t shell) const {
    std::size_t plain = 0;
    for (std::size_t b = 0; b < blocks_.size(); ++b) {
      if (blocks_[b].situation != situation) continue;
      if (blocks_[b].shell == shell) return b;
      if (!blocks_[b].shell) plain = b;
    }
    return plain;
  }

 private:
  std::vector<double> block_at(const std::vector<double>& x, std::size_t b) const {
    const auto first = x.begin() + static_cast<std::ptrdiff_t>(b * families_);
    return {first, first + static_cast<std::ptrdiff_t>(families_)};
  }

  // The optimiser keeps sums only to its tolerance.
  static void tidy(std::vector<double>& share) {
    for (double& value : share) value = value < 1e-12 ? 0 : value;
    const double sum = std::accumulate(share.begin(), share.end(), 0.0);
    for (double& value : share) value /= sum;
  }

  double added(const std::vector<double>& share, const std::vector<double>& was,
               std::size_t f) const {
    return std::max(0.0, share[f] - was[f]);
  }

  std::vector<double> without_expected(const std::vector<double>& share, std::size_t b) const {
    const std::vector<double>& was = shares_of(question_.scheme, blocks_[b]);
    std::vector<double> out = share;
    for (std::size_t f = 0; f < families_; ++f) {
      const double expected = limits_.fade * added(share, was, f) * added(share, was, f);
      out[f] -= expected;
      for (std::size_t g = 0; g < families_; ++g) out[g] += expected * was[g];
    }
    return out;
  }

  void add_gradient(const std::vector<double>& x, std::size_t b, const DriveGradient& by,
                    std::vector<double>& gradient) const {
    const std::vector<double>& was = shares_of(question_.scheme, blocks_[b]);
    const std::vector<double> share = block_at(x, b);
    const std::vector<double> slope = block_slope(blocks_[b], by);
    double usual = 0;
    for (std::size_t f = 0; f < families_; ++f) usual += was[f] * slope[f];
    for (std::size_t f = 0; f < families_; ++f)
      gradient[b * families_ + f] =
          slope[f] - 2 * limits_.fade * added(share, was, f) * (slope[f] - usual);
  }

  std::vector<double> block_slope(const MixBlock& block, const DriveGradient& by) const {
    const auto& own = question_.scheme.situations[block.situation].share_by_shell;
    std::vector<double> slope(families_, 0.0);
    for (std::size_t shell = 0; shell < shell_count; ++shell) {
      const bool here = block.shell ? *block.shell == shell : !own[shell];
      for (std::size_t f = 0; here && f < families_; ++f)
        slope[f] += by.call[block.situation][shell][f];
    }
    return slope;
  }

  const Question& question_;
  TailorLimits limits_;
  Matchup matchup_;
  Player player_;
  std::vector<MixBlock> blocks_;
  std::size_t families_;
  std::vector<MixBounds> bounds_;
};

// What NLopt calls back with.
struct Search {
  const Problem& problem;
  const Progress& progress;
  int evaluations = 0;
};

double net_points(const std::vector<double>& x, std::vector<double>& gradient, void* data) {
  auto& search = *static_cast<Search*>(data);
  ++search.evaluations;
  if (search.progress)
    search.progress(static_cast<std::size_t>(std::min(search.evaluations, most_evaluations)),
                    most_evaluations + 1);
  return search.problem.net(x, gradient);
}

// A linear side condition: sum of coefficient x share in one block, plus a constant.
struct Condition {
  std::size_t first = 0;
  std::vector<double> coefficient;
  double constant = 0;
};

double condition_value(const std::vector<double>& x, std::vector<double>& gradient, void* data) {
  const auto& condition = *static_cast<const Condition*>(data);
  std::fill(gradient.begin(), gradient.end(), 0.0);
  double sum = condition.constant;
  for (std::size_t i = 0; i < condition.coefficient.size(); ++i) {
    sum += condition.coefficient[i] * x[condition.first + i];
    if (!gradient.empty()) gradient[condition.first + i] = condition.coefficient[i];
  }
  return sum;
}

Condition sums_to_one(const Problem& problem, std::size_t block) {
  return {block * problem.families(), std::vector<double>(problem.families(), 1.0), -1};
}

// Passes stay below their upper limit, or above the lower one (`sign` -1).
Condition passes_within(const Problem& problem, std::size_t block, double sign) {
  const MixBounds& bounds = problem.bounds(block);
  Condition condition{block * problem.families(), {}, 0};
  for (const bool pass : bounds.pass) condition.coefficient.push_back(pass ? sign : 0.0);
  condition.constant = sign > 0 ? -bounds.pass_high : bounds.pass_low;
  return condition;
}

std::vector<double> search_mix(const Problem& problem, Search& search) {
  std::vector<double> low;
  std::vector<double> high;
  std::vector<Condition> equal;
  std::vector<Condition> below;
  for (std::size_t b = 0; b < problem.block_count(); ++b) {
    const MixBounds& bounds = problem.bounds(b);
    low.insert(low.end(), bounds.low.begin(), bounds.low.end());
    high.insert(high.end(), bounds.high.begin(), bounds.high.end());
    equal.push_back(sums_to_one(problem, b));
    below.push_back(passes_within(problem, b, 1));
    below.push_back(passes_within(problem, b, -1));
  }
  nlopt::opt optimiser(nlopt::LD_SLSQP, static_cast<unsigned>(problem.size()));
  optimiser.set_max_objective(net_points, &search);
  optimiser.set_lower_bounds(low);
  optimiser.set_upper_bounds(high);
  for (Condition& condition : equal)
    optimiser.add_equality_constraint(condition_value, &condition, sum_tolerance);
  for (Condition& condition : below)
    optimiser.add_inequality_constraint(condition_value, &condition, sum_tolerance);
  optimiser.set_ftol_abs(settled_points);
  optimiser.set_maxeval(most_evaluations);
  std::vector<double> x = problem.start();
  double value = 0;
  try {
    optimiser.optimize(x, value);
  } catch (const nlopt::roundoff_limited&) {
    // As near as rounding lets it come: x is the best point so far.
  }
  return x;
}

double bound_of(const Problem& problem) {
  return best_net_points(
      problem.matchup().plan.value(), problem.player(), problem.matchup().starts,
      [&problem](std::size_t situation, std::size_t shell, const std::vector<double>& worth) {
        const MixBounds& bounds = problem.bounds(problem.block_of(situation, shell));
        const std::vector<double> mix = best_mix(bounds, worth);
        return std::inner_product(mix.begin(), mix.end(), worth.begin(), 0.0);
      });
}

double net_of(const Problem& problem, const std::vector<double>& x) {
  std::vector<double> none;
  return problem.net(x, none);
}

}  // namespace

Tailored tailor(const Question& question, const TailorLimits& limits, const DrawOptions& options,
                const Progress& progress) {
  require_limits(limits);
  const Problem problem(question, limits);
  Search search{problem, progress};
  std::vector<double> x = search_mix(problem, search);
  Tailored result;
  result.net_before = net_of(problem, problem.start());
  result.net_after = net_of(problem, x);
  if (result.net_after < result.net_before) {  // the search may end on a point that is no gain
    x = problem.start();
    result.net_after = result.net_before;
  }
  result.called = problem.scheme_at(x, false);
  result.surprising = problem.scheme_at(x, true);
  result.net_bound = bound_of(problem);
  result.evaluations = search.evaluations;
  Question after = question;
  after.scheme = result.surprising;
  result.effect = compare_questions(question, after, options);
  Question called = question;
  called.scheme = result.called;
  result.effect.moved = moved_knobs(question, called, {});
  if (progress) progress(1, 1);
  return result;
}

}  // namespace callfit

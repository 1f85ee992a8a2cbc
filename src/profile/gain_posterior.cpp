#include <profile/gain_posterior.hpp>

#include <algorithm>
#include <limits>
#include <numeric>

namespace callfit {
namespace {

constexpr int rounds = 8;  // of expectation-maximisation; shares settle to about 1e-4
constexpr int open_end = std::numeric_limits<int>::max();

double weight_of(const GainRange& range) { return range.weight; }
double weight_of(const CatchRange& range) { return range.sum.weight; }

/// One part of a charted sum: how well its mean is known.
struct PartOfSum {
  double known = 0;     ///< total of its Dirichlet without the sums
  double between = 0;   ///< variance of its bins' means
  double variance = 0;  ///< of one gain
  double sums = 0;      ///< weight of sums that tell of it
};

// Counts over bins that grow by parts of snaps, and the distribution they currently imply.
class BinCounts {
 public:
  explicit BinCounts(const GainPopulation& population)
      : population_(population), prior_(population.alpha()) {
    pmf_ = population.shape;
    clear();
  }

  const YardPmf& pmf() const { return pmf_; }
  const std::vector<double>& alpha() const { return alpha_; }

  void clear() {
    alpha_ = prior_;
    from_sums_ = 0;
  }

  void add(int yards, double weight) { alpha_[population_.bin_of(yards)] += weight; }
  /// What was added since clear(), times `by`.
  std::vector<double> added(double by = 1) const {
    std::vector<double> counts = alpha_;
    for (std::size_t b = 0; b < counts.size(); ++b) counts[b] = by * (counts[b] - prior_[b]);
    return counts;
  }
  /// Of the weight added, this came from sums.
  void note_sum(double weight) { from_sums_ += weight; }

  // Probability of the range, and its yards within the shape.
  template <class Visit>
  void for_range(const GainRange& range, const Visit& visit) const {
    const int low = std::max(range.low, pmf_.first);
    const int high = std::min(range.high, pmf_.last());
    for (int yards = low; yards <= high; ++yards)
      if (pmf_.at(yards) > 0) visit(yards, pmf_.at(yards));
  }

  double probability(const GainRange& range) const {
    double total = 0;
    for_range(range, [&](int, double p) { total += p; });
    return total;
  }

  void share_out(const GainRange& range, double weight) {
    const double total = probability(range);
    if (range.low == range.high || total <= 0) {
      add(range.low, weight);  // outside the population's shape: the end bin
      return;
    }
    for_range(range, [&](int yards, double p) { add(yards, weight * p / total); });
  }

  // The distribution at the current counts, for the next round.
  void update() {
    const double total = std::accumulate(alpha_.begin(), alpha_.end(), 0.0);
    std::vector<double> share = alpha_;
    for (double& value : share) value /= total;
    pmf_ = gain_pmf(population_, share);
  }

  /// What the mean of this part is known by, sums left out.
  PartOfSum as_part() const {
    const double known = std::accumulate(alpha_.begin(), alpha_.end(), 0.0) - from_sums_;
    std::vector<double> share(alpha_.size()), moment(alpha_.size());
    for (int yards = pmf_.first; yards <= pmf_.last(); ++yards) {
      const double p = pmf_.at(yards);
      share[population_.bin_of(yards)] += p;
      moment[population_.bin_of(yards)] += p * yards;
    }
    const double middle = mean(pmf_);
    double between = -middle * middle;
    for (std::size_t b = 0; b < share.size(); ++b)
      if (share[b] > 0) between += moment[b] * moment[b] / share[b];
    return {known, std::max(0.0, between), variance(pmf_), from_sums_};
  }

  /// The same shares of bins, known as well as by counts of `total`.
  void scale_to(double total) {
    const double by = total / std::accumulate(alpha_.begin(), alpha_.end(), 0.0);
    for (double& alpha : alpha_) alpha *= by;
  }

  /// Of those ranges that `counts` picks.
  template <class Range, class Counts>
  GainEstimate estimate(const std::vector<Range>& ranges, const Counts& counts) const {
    GainEstimate estimate{alpha_, 0, 0};
    for (const Range& range : ranges) {
      if (!counts(range)) continue;
      estimate.snaps += 1;
      estimate.effective_snaps += weight_of(range);
    }
    return estimate;
  }

 private:
  const GainPopulation& population_;
  std::vector<double> prior_;
  std::vector<double> alpha_;
  double from_sums_ = 0;
  YardPmf pmf_;
};

// However many sums are charted, how they split into two parts rests on what was known of the parts
// before: sums move both means as if their counts were full, but make them surer only up to a
// limit. For normal means with variances a and b before, and n sums of variance s each, the
// variance of the first mean becomes a - a^2 / (a + b + s / n). Returned: the total of a Dirichlet
// whose mean has it.
double total_after_sums(const PartOfSum& part, const PartOfSum& other) {
  if (!(part.between > 0) || !(part.sums > 0)) return part.known + part.sums;
  const double before = part.between / (part.known + 1);
  const double others = other.between / (other.known + 1);
  const double of_sums = (part.variance + other.variance) / part.sums;
  const double left = before - before * before / (before + others + of_sums);
  return std::min(part.between / left - 1, part.known + part.sums);
}

// A sum at the goal line whose catch lies beyond the line says nothing of the yards after it.
bool caught_in_end_zone(const GainRange& sum, int depth) {
  return sum.high == open_end && depth >= sum.low;
}

/// What is left of a sum after a catch at this depth.
GainRange rest_of(const GainRange& sum, int depth) {
  return {sum.low - depth, sum.high == open_end ? open_end : sum.high - depth, sum.weight};
}

void share_out_sum(const GainRange& sum, BinCounts& depth, BinCounts& after) {
  const auto chance = [&](int yards) {
    return caught_in_end_zone(sum, yards) ? 1.0 : after.probability(rest_of(sum, yards));
  };
  const GainRange any{depth.pmf().first, depth.pmf().last()};
  double total = 0;
  depth.for_range(any, [&](int yards, double p) { total += p * chance(yards); });
  if (total <= 0) return;  // no split of the sum is possible in the population: nothing learned
  depth.for_range(any, [&](int yards, double p) {
    const double weight = sum.weight * p * chance(yards) / total;
    if (weight <= 0) return;
    depth.add(yards, weight);
    depth.note_sum(weight);
    if (caught_in_end_zone(sum, yards)) return;
    after.share_out(rest_of(sum, yards), weight);
    after.note_sum(weight);
  });
}

bool at_goal_line(const Snap& snap) { return snap.yards >= snap.yards_to_goal; }

}  // namespace

GainRange gain_range(const WeightedSnap& weighted) {
  const Snap& snap = *weighted.snap;
  return {snap.yards, at_goal_line(snap) ? open_end : snap.yards, weighted.weight};
}

CatchRange catch_range(const WeightedSnap& weighted) {
  const Snap& snap = *weighted.snap;
  CatchRange range{gain_range(weighted), snap.air_yards, true};
  if (!snap.air_yards && snap.yac) range.depth = static_cast<std::int16_t>(snap.yards - *snap.yac);
  if (range.depth) range.after_known = *range.depth < snap.yards_to_goal;
  return range;
}

namespace {

BinCounts settled(const GainPopulation& population, const std::vector<GainRange>& gains) {
  BinCounts bins(population);
  for (int round = 0; round < rounds; ++round) {
    bins.clear();
    for (const GainRange& gain : gains) bins.share_out(gain, gain.weight);
    bins.update();
  }
  return bins;
}

void count_catch(const CatchRange& one, BinCounts& depth, BinCounts& after) {
  if (!one.depth) {
    share_out_sum(one.sum, depth, after);
    return;
  }
  depth.add(*one.depth, one.sum.weight);
  if (one.after_known) after.share_out(rest_of(one.sum, *one.depth), one.sum.weight);
}

void settle(const std::vector<CatchRange>& catches, BinCounts& depth, BinCounts& after) {
  for (int round = 0; round < rounds; ++round) {
    depth.clear();
    after.clear();
    for (const CatchRange& one : catches) count_catch(one, depth, after);
    depth.update();
    after.update();
  }
}

/// What sums are worth of their full counts.
double worth_of_sums(const PartOfSum& part, const PartOfSum& other) {
  return part.sums > 0 ? (total_after_sums(part, other) - part.known) / part.sums : 1.0;
}

}  // namespace

GainEstimate gain_posterior(const GainPopulation& population, const std::vector<GainRange>& gains) {
  return settled(population, gains).estimate(gains, [](const GainRange&) { return true; });
}

std::vector<std::vector<double>> gain_counts(const GainPopulation& population,
                                             const std::vector<GainRange>& gains) {
  BinCounts bins = settled(population, gains);
  std::vector<std::vector<double>> counts;
  for (const GainRange& gain : gains) {
    bins.clear();
    bins.share_out(gain, gain.weight);
    counts.push_back(bins.added());
  }
  return counts;
}

CatchEstimates catch_posterior(const GainPopulation& depth_population,
                               const GainPopulation& after_population,
                               const std::vector<CatchRange>& catches) {
  BinCounts depth(depth_population);
  BinCounts after(after_population);
  settle(catches, depth, after);
  const PartOfSum depth_part = depth.as_part(), after_part = after.as_part();
  if (depth_part.sums > 0) depth.scale_to(total_after_sums(depth_part, after_part));
  if (after_part.sums > 0) after.scale_to(total_after_sums(after_part, depth_part));
  const auto any = [](const CatchRange&) { return true; };
  const auto ran = [](const CatchRange& one) { return one.after_known; };
  return {depth.estimate(catches, any), after.estimate(catches, ran)};
}

CatchCounts catch_counts(const GainPopulation& depth_population,
                         const GainPopulation& after_population,
                         const std::vector<CatchRange>& catches) {
  BinCounts depth(depth_population);
  BinCounts after(after_population);
  settle(catches, depth, after);
  const PartOfSum depth_part = depth.as_part(), after_part = after.as_part();
  const double of_depth = worth_of_sums(depth_part, after_part);
  const double of_after = worth_of_sums(after_part, depth_part);
  CatchCounts counts;
  for (const CatchRange& one : catches) {
    depth.clear();
    after.clear();
    count_catch(one, depth, after);
    counts.depth.push_back(depth.added(one.depth ? 1.0 : of_depth));
    counts.after.push_back(after.added(one.depth ? 1.0 : of_after));
  }
  return counts;
}

}  // namespace callfit

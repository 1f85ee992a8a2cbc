#include <profile/rate_posterior.hpp>

#include <callfit/stats/logit.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

constexpr std::size_t node_count = 24;

bool any_shift(const std::vector<ShiftedCounts>& groups) {
  return std::any_of(groups.begin(), groups.end(),
                     [](const ShiftedCounts& g) { return g.shift != 0 && g.of > 0; });
}

Beta with_counts(const Beta& prior, const std::vector<ShiftedCounts>& groups) {
  Beta posterior = prior;
  for (const ShiftedCounts& group : groups) {
    posterior.a += group.made;
    posterior.b += group.of - group.made;
  }
  return posterior;
}

// Mode of the density over x = logit theta (that of theta (1 - theta) times the density of theta),
// by Newton steps kept inside a bracket: the density is log-concave in x.
double mode_log_odds(const Beta& prior, const std::vector<ShiftedCounts>& groups) {
  constexpr int most_steps = 60;
  const Beta start = with_counts(prior, groups);
  double x = std::log(start.a / start.b);
  for (int step = 0; step < most_steps; ++step) {
    const double p = logistic(x);
    double slope = prior.a - prior.strength() * p;
    double bend = prior.strength() * p * (1 - p);
    for (const ShiftedCounts& group : groups) {
      const double q = logistic(x + group.shift);
      slope += group.made - group.of * q;
      bend += group.of * q * (1 - q);
    }
    const double move = std::clamp(slope / bend, -1.0, 1.0);
    x += move;
    if (std::abs(move) < 1e-12) break;
  }
  return x;
}

double log_likelihood(double theta, const std::vector<ShiftedCounts>& groups) {
  double sum = 0;
  for (const ShiftedCounts& group : groups) {
    if (group.of <= 0) continue;
    const double x = logit(theta) + group.shift;
    sum += group.made * x - group.of * std::log1p(std::exp(x));
  }
  return sum;
}

// Turns nodes of one density into those of another; `log_ratio` of the two at each point.
template <class LogRatio>
Nodes reweighted(Nodes nodes, const LogRatio& log_ratio) {
  std::vector<double> logs;
  for (const double at : nodes.at) logs.push_back(log_ratio(at));
  const double largest = *std::max_element(logs.begin(), logs.end());
  double total = 0;
  for (std::size_t i = 0; i < nodes.size(); ++i)
    total += nodes.weight[i] *= std::exp(logs[i] - largest);
  for (double& weight : nodes.weight) weight /= total;
  return nodes;
}

}  // namespace

Beta near_posterior(const Beta& prior, const std::vector<ShiftedCounts>& groups) {
  if (!any_shift(groups)) return with_counts(prior, groups);
  const double x = mode_log_odds(prior, groups);
  const double p = logistic(x);
  double bend = prior.strength() * p * (1 - p);
  for (const ShiftedCounts& group : groups) {
    const double q = logistic(x + group.shift);
    bend += group.of * q * (1 - q);
  }
  return Beta::of_mean(p, bend / (p * (1 - p)));
}

Nodes posterior_nodes(const Beta& prior, const std::vector<ShiftedCounts>& groups) {
  const Beta near = near_posterior(prior, groups);
  Nodes nodes = beta_nodes(near, node_count);
  if (!any_shift(groups)) return nodes;
  return reweighted(std::move(nodes), [&](double theta) {
    return (prior.a - near.a) * std::log(theta) + (prior.b - near.b) * std::log1p(-theta) +
           log_likelihood(theta, groups);
  });
}

Beta matched(const Nodes& nodes) {
  double first = 0;
  double second = 0;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    first += nodes.weight[i] * nodes.at[i];
    second += nodes.weight[i] * nodes.at[i] * nodes.at[i];
  }
  return Beta::of_moments(first, second - first * first);
}

Beta rate_posterior(const Beta& prior, const std::vector<ShiftedCounts>& groups,
                    const Nodes& nodes) {
  return any_shift(groups) ? matched(nodes) : with_counts(prior, groups);
}

double departure_of(const std::vector<CellCounts>& levels) {
  constexpr int most_steps = 200;
  constexpr double rounding = 1e-14;  // of the snaps
  const double farthest = -logit(smallest_share);
  double made = 0;
  double of = 0;
  for (const CellCounts& level : levels) {
    if (level.family <= 0 || level.family >= 1) continue;  // all as the family, whatever departure
    made += level.made;
    of += level.of;
  }
  if (of == 0) return 0;
  if (made <= 0) return -farthest;
  if (made >= of) return farthest;

  double departure = 0;
  double low = -farthest;
  double high = farthest;
  for (int step = 0; step < most_steps; ++step) {
    double off = 0;
    double bend = 0;
    for (const CellCounts& level : levels) {
      const double p = shifted(level.family, departure);
      off += level.made - level.of * p;
      bend += level.of * p * (1 - p);
    }
    if (std::abs(off) <= rounding * of) break;
    (off > 0 ? low : high) = departure;
    const double newton = departure + off / bend;
    departure = newton > low && newton < high ? newton : (low + high) / 2;
  }
  return departure;
}

}  // namespace callfit

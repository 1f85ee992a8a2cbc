#include <callfit/base/finding.hpp>
#include <callfit/base/nearest.hpp>
#include <callfit/scheme/call_chart.hpp>

#include <numeric>
#include <string>

namespace callfit {
namespace {

/// [situation][family] how often it was called.
using Counts = std::vector<std::vector<double>>;

Finding unknown_family(const Scheme& scheme, const Chart& chart, const Snap& snap) {
  std::vector<std::string> ids;
  ids.reserve(scheme.families.size());
  for (const Family& family : scheme.families) ids.push_back(family.id);
  return {{chart.source, snap.line, "family"},
          "the scheme has no family \"" + snap.family.str() + "\"",
          suggest(snap.family, ids)};
}

Counts count_calls(const Scheme& base, const std::vector<Chart>& charts) {
  Counts counts(base.situations.size(), std::vector<double>(base.families.size(), 0.0));
  Findings unknown;
  for (const Chart& chart : charts)
    for (const Snap& snap : chart.snaps) {
      if (snap.family.empty()) continue;
      const std::size_t family = base.find_family(snap.family);
      if (family == base.families.size()) {
        unknown.push_back(unknown_family(base, chart, snap));
        continue;
      }
      const std::size_t situation =
          first_match(base.situations, snap.down, snap.to_go, snap.yards_to_goal);
      counts[situation][family] += 1;
    }
  if (!unknown.empty()) throw InputError(std::move(unknown));
  return counts;
}

double sum(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

std::vector<double> smoothed(const std::vector<double>& counts, const std::vector<double>& usual,
                             double smoothing) {
  if (sum(counts) == 0) return usual;
  const double total = sum(counts) + smoothing;
  std::vector<double> share(counts.size());
  for (std::size_t f = 0; f < share.size(); ++f)
    share[f] = (counts[f] + smoothing * usual[f]) / total;
  return share;
}

}  // namespace

Scheme scheme_from_calls(const Scheme& base, const std::vector<Chart>& charts, double smoothing) {
  const Counts counts = count_calls(base, charts);
  Scheme scheme = base;
  scheme.id = base.id + "-charted";
  double calls = 0;
  for (std::size_t s = 0; s < counts.size(); ++s) {
    scheme.situations[s].share = smoothed(counts[s], base.situations[s].share, smoothing);
    scheme.situations[s].share_by_shell = {};
    scheme.situations[s].snaps = sum(counts[s]);
    calls += scheme.situations[s].snaps;
  }
  if (calls == 0)
    throw InputError(Finding{{}, "the charts hold no calls", "chart the family of each snap"});
  scheme.source = "call shares from " + std::to_string(static_cast<long>(calls)) +
                  " charted calls; demands of " + base.name + ": " + base.source;
  return scheme;
}

}  // namespace callfit

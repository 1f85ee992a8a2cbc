#include "validate/targets.hpp"

#include <fmt/format.h>
#include <boost/math/distributions/binomial.hpp>

#include <algorithm>
#include <cmath>
#include <string_view>

namespace callfit {
namespace {

constexpr double points_within = 0.05;  // of the observation
constexpr double share_within = 0.015;  // all drives, and by start where there are enough
constexpr double enough_drives = 1000;
constexpr double few_drives = 40;  // a cell of fewer says nothing
constexpr double errors_allowed = 2;
constexpr double conversion_within = 0.02;
constexpr double plays_within = 0.25;
constexpr double next_score_within = 0.3;
constexpr int next_score_from = 5, next_score_to = 90;  // yards to the goal

void hold(Target& target, double difference, const std::string& where) {
  ++target.rows;
  if (std::abs(difference) > target.allowed) ++target.missed;
  if (target.rows > 1 && std::abs(difference) <= std::abs(target.worst)) return;
  target.worst = difference;
  target.where = where;
}

bool is_all(const ObservedDrives& drives) {
  return drives.yards_to_goal.low <= 1 && drives.yards_to_goal.high >= 99;
}

void hold_results(Target& target, const DrivesCompared& row, bool with_start) {
  for (std::size_t r = 0; r < drive_result_count; ++r) {
    std::string where(word(static_cast<DriveResult>(r)));
    if (with_start) where += " from " + row.observed.start;
    hold(target, row.model.share[r] - row.observed.share[r], where);
  }
}

std::vector<Target> drive_targets(const ValidationReport& report) {
  Target points{"points per drive, all drives", ValueUnit::points, true, points_within};
  Target plays{"plays per drive, all drives", ValueUnit::plays, false, plays_within};
  Target shares{"share of each result, all drives", ValueUnit::share, false, share_within};
  Target by_start{"share of each result by start, where n > 1,000", ValueUnit::share, false,
                  share_within};
  for (const DrivesCompared& row : report.drives) {
    if (is_all(row.observed)) {
      hold(points, row.model.points / row.observed.points - 1, "all drives");
      hold(plays, row.model.plays - row.observed.plays, "all drives");
      hold_results(shares, row, false);
    } else if (row.observed.n > enough_drives) {
      hold_results(by_start, row, true);
    }
  }
  return {points, plays, shares, by_start};
}

/// Chance that k of n with probability p make a share farther from p than `within`.
double chance_beyond(double n, double p, double within) {
  constexpr double rounding = 1e-9;
  if (!(p > 0 && p < 1)) return 0;
  const boost::math::binomial counts(n, p);
  const double below = std::ceil(n * (p - within) - rounding) - 1;
  const double last = std::min(n, std::floor(n * (p + within) + rounding));
  return (below < 0 ? 0.0 : cdf(counts, below)) + cdf(complement(counts, last));
}

// The counting error of a right model, so that a share of which nothing came up has one too.
double counting_error(const DrivesCompared& row, std::size_t result) {
  const double p = row.model.share[result];
  const double counted = std::sqrt(p * (1 - p) / row.observed.n);
  return row.observed.share_se ? std::max(counted, (*row.observed.share_se)[result]) : counted;
}

Target cells_target(const ValidationReport& report) {
  Target cells{"results by start, n >= 40, also beyond 2 standard errors", ValueUnit::share, false,
               share_within};
  double expected = 0;
  for (const DrivesCompared& row : report.drives) {
    if (is_all(row.observed) || row.observed.n < few_drives) continue;
    for (std::size_t r = 0; r < static_cast<std::size_t>(DriveResult::end_of_half); ++r) {
      const double within = std::max(share_within, errors_allowed * counting_error(row, r));
      const double difference = row.model.share[r] - row.observed.share[r];
      expected += chance_beyond(row.observed.n, row.model.share[r], within);
      ++cells.rows;
      if (std::abs(difference) <= within) continue;
      ++cells.missed;
      const std::string where =
          fmt::format("{} from {}", word(static_cast<DriveResult>(r)), row.observed.start);
      cells.beyond.push_back(fmt::format("{} {:+.1f}", where, 100 * difference));
      if (std::abs(difference) <= std::abs(cells.worst)) continue;
      cells.worst = difference;
      cells.where = where;
    }
  }
  cells.by_chance = expected;
  return cells;
}

void hold_values(std::vector<Target>& targets, const ValuesCompared& values) {
  if (values.id == "series") {
    Target all{"series converted, all", ValueUnit::share, false, conversion_within};
    Target zones{"series converted, by zone", ValueUnit::share, false, conversion_within};
    for (const ValueCompared& row : values.rows)
      hold(row.label == "all" ? all : zones, row.difference(), row.label);
    targets.push_back(all);
    targets.push_back(zones);
  }
  if (values.id == "next_score") {
    Target points{"next-score points at first and ten, own 10 to opponent's 5", ValueUnit::points,
                  false, next_score_within};
    for (const ValueCompared& row : values.rows)
      if (row.band.high > next_score_from && row.band.low <= next_score_to)
        hold(points, row.difference(), row.label);
    targets.push_back(points);
  }
}

}  // namespace

bool Target::met() const {
  const double chance = by_chance.value_or(0.0);
  return has_data() && static_cast<double>(missed) <= chance + 2 * std::sqrt(chance);
}

std::vector<Target> targets_of(const ValidationReport& report) {
  std::vector<Target> targets = drive_targets(report);
  for (const ValuesCompared& values : report.values) hold_values(targets, values);
  targets.push_back(cells_target(report));
  return targets;
}

}  // namespace callfit

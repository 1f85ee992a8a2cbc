#include <callfit/drive/course.hpp>
#include <callfit/fit/fit.hpp>
#include <callfit/profile/player.hpp>
#include <callfit/validate/validate.hpp>

#include "validate/targets.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numeric>
#include <utility>

namespace callfit {
namespace {

constexpr std::uint64_t drives_drawn = 4'000'000;
constexpr int longest_drive = 99;

std::vector<double> shares_within(const std::vector<double>& counts, const Band& band) {
  std::vector<double> share(counts.size(), 0.0);
  double total = 0;
  for (int y = 1; y < static_cast<int>(counts.size()); ++y) {
    if (!band.contains(y)) continue;
    const auto at = static_cast<std::size_t>(y);
    share[at] = counts[at];
    total += counts[at];
  }
  for (double& value : share) value /= total;
  return share;
}

std::string label_of(const Band& band, int least, int most) {
  if (band.low <= least && band.high >= most) return "all";
  if (band.low == band.high) return std::to_string(band.low);
  if (band.high >= most) return std::to_string(band.low) + "+";
  return std::to_string(band.low) + "-" + std::to_string(band.high);
}

double se_of_share(double share, double n) { return std::sqrt(share * (1 - share) / n); }

/// Sum over a band of a vector by yards.
double sum_within(const std::vector<double>& values, const Band& band) {
  double sum = 0;
  for (int y = 0; y < static_cast<int>(values.size()); ++y)
    if (band.contains(y)) sum += values[static_cast<std::size_t>(y)];
  return sum;
}

/// Everything about the average offence that the comparisons look up.
struct AverageOffence {
  ExactDrives drives, drives_with_half;
  DriveCourse course;
  std::vector<double> next_score;
  std::array<double, plays_told> lengths{};  ///< share of drives by plays; of none where none asks
};

// The scale on which next scores were counted.
Setting with_touchdown_of_seven(Setting setting) {
  setting.rules.try_mean = 7 - setting.rules.touchdown;
  return setting;
}

// What those who come to first and ten are worth there: near the goal more of them are good.
std::vector<double> as_met(const std::vector<std::vector<std::array<double, 2>>>& by_class,
                           const DriveCourse& course) {
  std::vector<double> out(course.series.size(), 0.0);
  for (std::size_t y = 1; y < out.size(); ++y) {
    double met = 0;
    for (std::size_t k = 0; k < by_class.size(); ++k) {
      out[y] += course.first_and_ten[k][y] * by_class[k][y].back();
      met += course.first_and_ten[k][y];
    }
    if (met > 0) out[y] /= met;
  }
  return out;
}

// The opponent who takes over is worth his next score to us, a score ends the count: so the net
// points of a drive are its next score.
std::vector<double> next_score_as_met(const Setting& setting, const Scheme& scheme,
                                      const std::vector<std::size_t>& families,
                                      const DriveCourse& course) {
  const NetValues next_score{next_score_points(setting, scheme, false), 0, 0, 0};
  const DriveModel model =
      compile_drives(average_player(setting), scheme, families, setting, next_score);
  return as_met(solve_points(model).by_class, course);
}

AverageOffence average_offence(const Setting& setting, const Scheme& scheme,
                               const std::vector<double>& starts, bool with_lengths) {
  const std::vector<std::size_t> families = bind_scheme(scheme, setting).setting_family;
  const NetValues net = average_net_values(setting, scheme, true);
  const Player player = average_player(setting);
  DriveOptions with_half;
  with_half.end_of_half = true;
  const DriveModel model = compile_drives(player, scheme, families, setting, net);
  DriveCourse course = course_of(model, starts);
  std::vector<double> next_score =
      next_score_as_met(with_touchdown_of_seven(setting), scheme, families, course);
  AverageOffence out{solve(model),
                     solve(compile_drives(player, scheme, families, setting, net, with_half)),
                     std::move(course), std::move(next_score)};
  if (with_lengths) out.lengths = simulate_over(model, starts, {0, drives_drawn}).by_plays;
  return out;
}

std::vector<DrivesCompared> compare_drives(const AverageOffence& average,
                                           const Observed& observed) {
  std::vector<DrivesCompared> out;
  for (const ObservedDrives& drives : observed.drives)
    out.push_back(
        {drives, average.drives.over(shares_within(observed.starts, drives.yards_to_goal))});
  return out;
}

// Goal-to-go series share their line in the model, so their bands are compared as one.
std::vector<ObservedShare> with_goal_to_go_as_one(const std::vector<ObservedShare>& rows) {
  std::vector<ObservedShare> out;
  ObservedShare goal{{1, 10}, 0, 0};
  for (const ObservedShare& row : rows) {
    if (row.band.high > 10) {
      out.push_back(row);
    } else {
      goal.share += row.n * row.share;
      goal.n += row.n;
    }
  }
  if (goal.n == 0) return out;
  goal.share /= goal.n;
  const auto after_all = std::find_if(out.begin(), out.end(),
                                      [](const ObservedShare& row) { return row.band.low > 10; });
  out.insert(after_all, goal);
  return out;
}

ValuesCompared compare_series(const AverageOffence& average, const Observed& observed) {
  ValuesCompared out{"series",
                     "Series converted, by yards to the goal",
                     "a first down or a touchdown in a series begun at first and ten or goal",
                     ValueUnit::share,
                     {}};
  for (const ObservedShare& row : with_goal_to_go_as_one(observed.series))
    out.rows.push_back({label_of(row.band, 1, 99), row.band, row.n,
                        sum_within(average.course.converted, row.band) /
                            sum_within(average.course.series, row.band),
                        row.share, row.error()});
  return out;
}

ValuesCompared compare_third_downs(const AverageOffence& average, const Observed& observed) {
  ValuesCompared out{"third_down",
                     "Third downs that gain the distance, by yards to go",
                     "played third downs, penalties apart",
                     ValueUnit::share,
                     {}};
  for (const ObservedShare& row : observed.third_down)
    out.rows.push_back({label_of(row.band, 1, 45), row.band, row.n,
                        sum_within(average.course.gained, row.band) /
                            sum_within(average.course.third_downs, row.band),
                        row.share, row.error()});
  return out;
}

ValuesCompared compare_red_zone(const AverageOffence& average, const Observed& observed) {
  if (observed.red_zone.n == 0) return {};
  const ObservedShare& row = observed.red_zone;
  const double drives = std::accumulate(observed.starts.begin(), observed.starts.end(), 0.0);
  const double reached = row.n / drives;
  return {"red_zone",
          "Red zone (20 yards and nearer)",
          "drives with a snap there, and touchdowns of those",
          ValueUnit::share,
          {{"drives that come there",
            {},
            drives,
            average.course.red_zone,
            reached,
            se_of_share(reached, drives)},
           {"touchdowns of those",
            {},
            row.n,
            average.course.red_zone_touchdowns / average.course.red_zone,
            row.share,
            se_of_share(row.share, row.n)}}};
}

/// Mean of the model's next-score points over a band, weighted as the observations lie; evenly
/// where nobody counted them by the yard.
double mean_points(const std::vector<double>& points, const Band& band,
                   const std::vector<ObservedPoints>& by_yard) {
  std::vector<double> weight(points.size(), 0.0);
  for (const ObservedPoints& yard : by_yard)
    weight[static_cast<std::size_t>(yard.yards_to_goal.low)] = yard.n;
  if (!(sum_within(weight, band) > 0)) std::fill(weight.begin() + 1, weight.end(), 1.0);
  std::vector<double> weighted(points.size());
  std::transform(points.begin(), points.end(), weight.begin(), weighted.begin(),
                 std::multiplies<>());
  return sum_within(weighted, band) / sum_within(weight, band);
}

ValuesCompared compare_next_score(const AverageOffence& average, const Observed& observed) {
  ValuesCompared out{"next_score",
                     "Expected points at first and ten, by yards to the goal",
                     "the next score of either team: touchdown 7, field goal 3, safety 2",
                     ValueUnit::points,
                     {}};
  for (const ObservedPoints& row : observed.points)
    out.rows.push_back({label_of(row.yards_to_goal, 1, 99), row.yards_to_goal, row.n,
                        mean_points(average.next_score, row.yards_to_goal, observed.points_by_yard),
                        row.points, row.se});
  return out;
}

ValuesCompared compare_older_next_score(const AverageOffence& average, const Observed& observed) {
  ValuesCompared out{"carter_machol",
                     "Expected points, professional league of 1969",
                     "the next score; " + observed.next_score_source,
                     ValueUnit::points,
                     {}};
  for (const ObservedPoints& row : observed.next_score)
    out.rows.push_back({label_of(row.yards_to_goal, 1, 99), row.yards_to_goal, row.n,
                        average.next_score[static_cast<std::size_t>(row.yards_to_goal.low)],
                        row.points, row.se});
  return out;
}

// Too many states to follow each by how many plays it took: drives are drawn.
ValuesCompared compare_lengths(const AverageOffence& average, const Observed& observed) {
  ValuesCompared out{"plays",
                     "Drives by plays",
                     fmt::format("snaps that count, no kicks; the model's from {},000,000 drawn "
                                 "drives",
                                 drives_drawn / 1'000'000),
                     ValueUnit::share,
                     {}};
  for (const ObservedShare& row : observed.lengths) {
    double drawn = 0;
    for (std::size_t plays = 0; plays < plays_told; ++plays)
      if (row.band.contains(static_cast<int>(plays))) drawn += average.lengths[plays];
    out.rows.push_back(
        {label_of(row.band, 1, longest_drive), row.band, row.n, drawn, row.share, row.error()});
  }
  return out;
}

std::string state_label(const DriveState& state) {
  return std::to_string(state.down) + " and " + std::to_string(state.to_go) + ", " +
         std::to_string(state.yards_to_goal) + " to the goal";
}

// As published: 6.96 for a touchdown, 3 for a field goal, -2 for a safety, the half cutting in.
double published_points(const DriveValues& values) {
  return 6.96 * values.share_of(DriveResult::touchdown) +
         3 * values.share_of(DriveResult::field_goal) - 2 * values.share_of(DriveResult::safety);
}

ValuesCompared compare_own_drive(const AverageOffence& average, const Observed& observed) {
  ValuesCompared out{"goldner",
                     "Expected points of the own drive, professional league of 2005-2009",
                     "the own drive only, which the half may cut off; " + observed.own_drive_source,
                     ValueUnit::points,
                     {}};
  for (const PublishedDrive& row : observed.own_drive)
    out.rows.push_back({state_label(row.start),
                        {},
                        0,
                        published_points(average.drives_with_half.at(row.start)),
                        row.points,
                        0});
  return out;
}

}  // namespace

double ObservedShare::error() const { return se > 0 ? se : se_of_share(share, n); }

double ObservedDrives::share_error(std::size_t result) const {
  return share_se ? (*share_se)[result] : se_of_share(share[result], std::max(n, 1.0));
}

ValidationReport validate_setting(const Setting& setting, const Scheme& average_scheme,
                                  const Observed& observed) {
  const AverageOffence average = average_offence(
      setting, average_scheme, shares_within(observed.starts, {1, 99}), !observed.lengths.empty());
  ValidationReport report;
  report.setting = setting.label;
  report.about = observed.about;
  report.source = observed.source;
  report.left_out = observed.left_out;
  report.starts_unknown = observed.starts_unknown;
  report.drives = compare_drives(average, observed);
  for (const auto compare : {compare_lengths, compare_series, compare_third_downs, compare_red_zone,
                             compare_next_score, compare_older_next_score, compare_own_drive})
    if (ValuesCompared values = compare(average, observed); !values.rows.empty())
      report.values.push_back(std::move(values));
  report.targets = targets_of(report);
  return report;
}

}  // namespace callfit

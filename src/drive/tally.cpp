#include <drive/tally.hpp>

#include <algorithm>
#include <cmath>

namespace callfit::drive {
namespace {

struct Estimate {
  double mean = 0;
  double standard_error = 0;
};

Estimate estimate(double sum, double sum_of_squares, double n) {
  if (n == 0) return {};
  const double mean = sum / n;
  if (n < 2) return {mean, 0};
  const double variance = std::max(0.0, (sum_of_squares - n * mean * mean) / (n - 1));
  return {mean, std::sqrt(variance / n)};
}

Estimate of_column(const Tally& tally, const Column& column) {
  double sum = 0;
  double sum_of_squares = 0;
  for (std::size_t r = 0; r < drive_result_count; ++r)
    for (Slot s = 0; s < slot_count; ++s) {
      const double value = column.ending(static_cast<DriveResult>(r), s);
      sum += static_cast<double>(tally.ends[r][s]) * value;
      sum_of_squares += static_cast<double>(tally.ends[r][s]) * value * value;
    }
  return estimate(sum, sum_of_squares, static_cast<double>(tally.drives));
}

double ended(const Tally& tally, std::size_t result) {
  std::uint64_t sum = 0;
  for (const std::uint64_t count : tally.ends[result]) sum += count;
  return static_cast<double>(sum);
}

}  // namespace

void Tally::add(const Tally& other) {
  for (std::size_t r = 0; r < drive_result_count; ++r)
    for (Slot s = 0; s < slot_count; ++s) ends[r][s] += other.ends[r][s];
  drives += other.drives;
  first_downs += other.first_downs;
  first_downs_squared += other.first_downs_squared;
  plays += other.plays;
  plays_squared += other.plays_squared;
  for (std::size_t p = 0; p < plays_told; ++p) by_plays[p] += other.by_plays[p];
}

SampledValues to_values(const Tally& tally, const Column& points, const Column& net) {
  SampledValues out;
  out.drives = tally.drives;
  const auto put = [&out](const Estimate& e, auto field) {
    field(out.mean) = e.mean;
    field(out.standard_error) = e.standard_error;
  };
  const auto n = static_cast<double>(tally.drives);
  put(of_column(tally, points), [](DriveValues& v) -> double& { return v.points; });
  put(of_column(tally, net), [](DriveValues& v) -> double& { return v.net_points; });
  put(estimate(static_cast<double>(tally.first_downs),
               static_cast<double>(tally.first_downs_squared), n),
      [](DriveValues& v) -> double& { return v.first_downs; });
  put(estimate(static_cast<double>(tally.plays), static_cast<double>(tally.plays_squared), n),
      [](DriveValues& v) -> double& { return v.plays; });
  for (std::size_t r = 0; r < drive_result_count; ++r)
    put(estimate(ended(tally, r), ended(tally, r), n),
        [r](DriveValues& v) -> double& { return v.share[r]; });
  for (std::size_t p = 0; p < plays_told; ++p)
    out.by_plays[p] = n > 0 ? static_cast<double>(tally.by_plays[p]) / n : 0.0;
  return out;
}

}  // namespace callfit::drive

// What happens along drives, for checks: series, third downs, the red zone.
#pragma once

#include <callfit/drive/drive.hpp>

#include <vector>

namespace callfit {

inline constexpr int red_zone_from = 20;  ///< yards_to_goal; common practice, no source

/// Expected numbers per drive. Vectors have size 100.
struct DriveCourse {
  /// Series by the yards_to_goal of their first down, and those of them that end in another first
  /// down or a touchdown. Goal-to-go series all count at yards_to_goal 10, which they share.
  std::vector<double> series, converted;
  /// Played third downs by to_go, and those that gain the distance.
  std::vector<double> third_downs, gained;
  /// First downs with ten to go, or goal to go from less: [quality class][yards_to_goal].
  std::vector<std::vector<double>> first_and_ten;
  double red_zone = 0;             ///< drives with a snap at 20 yards to the goal or nearer
  double red_zone_touchdowns = 0;  ///< of those, touchdowns
};

/// Exact, from shares of starting yards_to_goal (size 100, index 0 unused, sums to 1).
DriveCourse course_of(const DriveModel& model, const std::vector<double>& start_share);

}  // namespace callfit

// What happens along drives must add up to what the exact engine says of whole drives.
#include "shipped.hpp"

#include <callfit/drive/course.hpp>
#include <callfit/setting/setting.hpp>

#include <catch2/catch.hpp>

#include <numeric>

using namespace callfit;

namespace {

double total(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

}  // namespace

TEST_CASE("series open at starts and first downs, and end in first downs or touchdowns") {
  const DriveModel model = shipped::average_drives();
  const std::vector<double> starts = start_shares(shipped::professional());
  const DriveCourse course = course_of(model, starts);
  const DriveValues drive = solve(model).over(starts);
  CHECK(total(course.series) == Approx(1 + drive.first_downs).epsilon(1e-9));
  CHECK(total(course.converted) ==
        Approx(drive.first_downs + drive.share_of(DriveResult::touchdown)).epsilon(1e-9));
  CHECK(total(course.gained) < total(course.third_downs));
}

TEST_CASE("a drive that starts in the red zone is in it") {
  const DriveModel model = shipped::average_drives();
  std::vector<double> start(100, 0.0);
  start[12] = 1;
  const DriveCourse course = course_of(model, start);
  CHECK(course.red_zone == Approx(1).epsilon(1e-12));
  CHECK(course.red_zone_touchdowns ==
        Approx(solve(model).over(start).share_of(DriveResult::touchdown)).epsilon(1e-9));
}

// The halves are sanity bounds, common practice, no source: real drives come there on about 30% of
// starts (settings/observed/pro-2015-2018.json).
TEST_CASE("few drives come to the red zone from afar, and some touchdowns never pass through it") {
  const DriveModel model = shipped::average_drives();
  std::vector<double> start(100, 0.0);
  start[80] = 1;
  const DriveCourse course = course_of(model, start);
  const double touchdowns = solve(model).over(start).share_of(DriveResult::touchdown);
  CHECK(course.red_zone > touchdowns);
  CHECK(course.red_zone < 0.5);
  CHECK(course.red_zone_touchdowns < touchdowns);
  CHECK(course.red_zone_touchdowns > 0.5 * touchdowns);
}

// Counting a table of real drives.
#include "shipped.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/validate/real_drives.hpp>
#include <callfit/validate/validate.hpp>

#include <catch2/catch.hpp>

#include <cmath>

using namespace callfit;

namespace {

RealDrive drive_of(const std::string& game, DriveResult result, double points, int start = 75) {
  return {game, 1, start, 5, result, points, false};
}

Observed college_half_season() {
  return count_drives(Files().drives(shipped::root + "data/college/drives_2025_even.csv.gz"),
                      "college");
}

const ObservedDrives* start_of(const Observed& observed, const std::string& name) {
  for (const ObservedDrives& row : observed.drives)
    if (row.start == name) return &row;
  return nullptr;
}

}  // namespace

// By hand: points 7, 0 in game a and 3, 0, 0 in game b; mean 2; the games' sums of departures are
// 3 and -3, so the standard error is sqrt((9 + 9) * 2 / 1) / 5.
TEST_CASE("means of drives have the standard error of their games' sums") {
  const Observed counted =
      count_drives({drive_of("a", DriveResult::touchdown, 7), drive_of("a", DriveResult::punt, 0),
                    drive_of("b", DriveResult::field_goal, 3), drive_of("b", DriveResult::punt, 0),
                    drive_of("b", DriveResult::punt, 0, 30)},
                   "d.csv");
  const ObservedDrives& all = counted.drives.front();
  CHECK(all.points == Approx(2));
  CHECK(all.points_se == Approx(6.0 / 5));
  CHECK(all.share_error(static_cast<std::size_t>(DriveResult::field_goal)) ==
        Approx(std::sqrt((0.4 * 0.4 + 0.4 * 0.4) * 2) / 5));
  CHECK(counted.starts[75] == 4);
  CHECK(counted.starts[30] == 1);
  REQUIRE(counted.drives.size() == 3);
  CHECK(counted.drives[1].start == "own_25");
  CHECK(counted.drives[2].start == "opp_21-30");
}

TEST_CASE("drives that a clock or a kneel ends are left out and named") {
  std::vector<RealDrive> drives{drive_of("a", DriveResult::punt, 0),
                                drive_of("b", DriveResult::punt, 0)};
  for (const int quarter : {2, 4, 4, 5}) {
    drives.push_back(drive_of("a", DriveResult::touchdown, 7));
    drives.back().quarter = quarter;
  }
  drives.push_back(drive_of("b", DriveResult::end_of_half, 0));
  drives.push_back(drive_of("b", DriveResult::punt, 0));
  drives.back().kneel_only = true;
  drives.push_back(drive_of("b", DriveResult::punt, 0));
  drives.back().start_yards_to_goal.reset();
  const Observed counted = count_drives(drives, "d.csv");
  CHECK(counted.drives.front().n == 3);
  CHECK(counted.drives.front().points == 0);
  CHECK(counted.starts_unknown == 1);
  REQUIRE(counted.left_out.size() == 4);
  double left_out = 0;
  for (const LeftOut& entry : counted.left_out) {
    CAPTURE(entry.reason);
    const bool quarters = entry.reason == "begun in the second or fourth quarter";
    CHECK(entry.n == (quarters ? 3 : 1));
    left_out += entry.n;
  }
  CHECK(left_out + counted.drives.front().n == static_cast<double>(drives.size()));
}

TEST_CASE("drives that cannot be compared are refused") {
  CHECK_THROWS_WITH(count_drives({drive_of("a", DriveResult::punt, 0)}, "d.csv"),
                    Catch::StartsWith("d.csv: 1 drives begun in quarters 1 and 3 are left, of 1"));
  std::vector<RealDrive> nowhere{drive_of("a", DriveResult::punt, 0),
                                 drive_of("b", DriveResult::punt, 0)};
  for (RealDrive& entry : nowhere) entry.start_yards_to_goal.reset();
  CHECK_THROWS_WITH(count_drives(nowhere, "d.csv"), Catch::Contains("has a start_yards_to_goal"));
}

// Source: data/college/drive_results_by_start_2025.csv, version started_q1_or_q3, counted by
// somebody else from the same drives. Its buckets hold only drives with a start, so does ours.
TEST_CASE("the college half season is counted as its own tables say") {
  const Observed counted = college_half_season();
  const ObservedDrives& all = counted.drives.front();
  CHECK(all.n == 4662);
  CHECK(all.points == Approx(2.37815).margin(5e-6));
  CHECK(all.plays == Approx(6.14951).margin(5e-6));
  CHECK(all.share[static_cast<std::size_t>(DriveResult::touchdown)] ==
        Approx(0.29365).margin(5e-6));
  CHECK(all.share[static_cast<std::size_t>(DriveResult::downs)] == Approx(0.06478).margin(5e-6));
  // Drives of one game hang together a little: more than the .04539 of independent ones.
  CHECK(all.points_se > 0.04539);
  CHECK(all.points_se < 1.15 * 0.04539);
  const ObservedDrives* own_25 = start_of(counted, "own_25");
  REQUIRE(own_25);
  CHECK(own_25->n == 1592);
}

// Source: data/college/drive_plays_pmf_2025.csv, version started_q1_or_q3: 4,662 drives by plays,
// added up over the bands, counted by somebody else from the same drives.
TEST_CASE("lengths of the college half season's drives are those of its own tables") {
  const Observed counted = college_half_season();
  const std::vector<double> expected{1492, 1337, 986, 589, 211, 47};
  REQUIRE(counted.lengths.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    INFO(counted.lengths[i].band.low);
    CHECK(counted.lengths[i].n * counted.lengths[i].share == Approx(expected[i]));
    CHECK(counted.lengths[i].se > 0);
  }
}

// The model starts where the drives did: what it says is the mean of its values at their starts.
TEST_CASE("the model starts where the file's drives started") {
  const Observed counted = college_half_season();
  const ValidationReport report =
      validate_setting(shipped::professional(), shipped::league_average(), counted);
  double sum = 0, n = 0;
  for (std::size_t i = 1; i < report.drives.size(); ++i) {
    sum += report.drives[i].observed.n * report.drives[i].model.points;
    n += report.drives[i].observed.n;
  }
  CHECK(report.drives.front().model.points == Approx(sum / n).epsilon(1e-12));
  CHECK(report.starts_unknown + n == report.drives.front().observed.n);
  REQUIRE(report.values.size() == 1);
  const ValuesCompared& lengths = report.values.front();
  CHECK(lengths.id == "plays");
  double model = 0, data = 0;
  for (const ValueCompared& row : lengths.rows) {
    model += row.model;
    data += row.observed;
  }
  CHECK(model == Approx(1).epsilon(1e-12));
  CHECK(data == Approx(1).epsilon(1e-12));
}

// The shipped professional setting against real drives of 2015-2018 (settings/observed; source in
// the file), within the targets that docs/validation.md lists.
#include "shipped.hpp"

#include <callfit/files/files.hpp>
#include <callfit/report/validation_report.hpp>
#include <callfit/validate/validate.hpp>

#include "validate/targets.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace callfit;

namespace {

const ValidationReport& report() {
  static const ValidationReport once =
      validate_setting(shipped::professional(), shipped::league_average(),
                       Files().observed(shipped::root + "settings/observed/pro-2015-2018.json"));
  return once;
}

const Target& target(const std::string& beginning) {
  const auto found =
      std::find_if(report().targets.begin(), report().targets.end(),
                   [&](const Target& entry) { return entry.what.rfind(beginning, 0) == 0; });
  REQUIRE(found != report().targets.end());
  return *found;
}

ValidationReport college_report() {
  Files files;
  const Setting college = files.setting(shipped::root + "settings/college.json");
  return validate_setting(college,
                          files.scheme(shipped::root + "schemes/" + college.average_scheme),
                          files.observed(shipped::root + "settings/observed/college-2025.json"));
}

ValidationReport with_touchdowns(double model, double observed) {
  ValidationReport made;
  DrivesCompared row;
  row.observed.start = "ALL";
  row.observed.yards_to_goal = {1, 99};
  row.observed.n = 5000;
  row.observed.points = 2;
  row.model.points = 2;
  row.observed.share[0] = observed;
  row.model.share[0] = model;
  made.drives.push_back(row);
  return made;
}

}  // namespace

TEST_CASE("the average professional offence is within the targets of real drives", "[plain]") {
  CHECK(target("points per drive").met());
  CHECK(target("plays per drive").met());
  CHECK(target("share of each result, all drives").met());
  CHECK(target("series converted, all").met());
}

// Three of 27 shares by start miss the target of 1.5 points (docs/validation.md says which); none
// is off by 3, three standard errors of a share near a half among 2,360 drives.
TEST_CASE("shares by start are off by no more than the counting error") {
  CHECK(target("share of each result by start").rows == 27);
  CHECK(target("share of each result by start").missed <= 3);
  CHECK(std::abs(target("share of each result by start").worst) <= 0.03);
}

// Drives of half the games of 2025 (data/college/SOURCES.md): points within 5%, shares within 1.5
// points are asked for. Series and next scores there are of other seasons, so they are not asked of
// it (docs/validation.md).
TEST_CASE("the average college offence is within the targets of real drives") {
  const ValidationReport made = college_report();
  for (std::size_t i = 0; i < 4; ++i) {
    CAPTURE(made.targets[i].what, made.targets[i].worst, made.targets[i].where);
    CHECK(made.targets[i].met());
  }
}

namespace {

// Of drives begun inside the own 10: how far a result is off, in counting errors of the model's
// share.
double errors_off(const ValidationReport& made, DriveResult result) {
  const auto row =
      std::find_if(made.drives.begin(), made.drives.end(),
                   [](const DrivesCompared& drives) { return drives.observed.start == "own_1-9"; });
  REQUIRE(row != made.drives.end());
  const double p = row->model.share_of(result);
  const double observed = row->observed.share[static_cast<std::size_t>(result)];
  return std::abs(p - observed) / std::sqrt(p * (1 - p) / row->observed.n);
}

}  // namespace

// In front of its own goal an offence keeps out of it. College's 272 drives there punt more than
// two counting errors too often (docs/validation.md), so of these safeties alone are asked for.
TEST_CASE("drives begun inside the own 10 end as real ones do, in safeties as in all else",
          "[plain]") {
  for (std::size_t r = 0; r < static_cast<std::size_t>(DriveResult::end_of_half); ++r) {
    CAPTURE(word(static_cast<DriveResult>(r)));
    CHECK(errors_off(report(), static_cast<DriveResult>(r)) <= 2);
  }
  CHECK(errors_off(college_report(), DriveResult::safety) <= 2);
}

// The target is .3 for each of the 17 bands of five yards from the own 10 to the opponent's 5; one
// band misses it (docs/validation.md says which). What must hold of a right model is that no band
// is off by more than its counting error allows: with 17 bands, 3 standard errors.
TEST_CASE("expected points at first and ten are off by no more than .3 or the counting error") {
  CHECK(target("next-score points").rows == 17);
  const auto found = std::find_if(
      report().values.begin(), report().values.end(),
      [](const ValuesCompared& v) { return v.title.rfind("Expected points at first", 0) == 0; });
  REQUIRE(found != report().values.end());
  CHECK(found->rows.size() == 20);
  for (const ValueCompared& band : found->rows) {
    CAPTURE(band.label, band.model, band.observed, band.standard_error);
    REQUIRE(band.standard_error > 0);
    CHECK(std::abs(band.difference()) < std::max(0.3, 3 * band.standard_error));
  }
}

TEST_CASE("a target knows what missed it") {
  const Target good = targets_of(with_touchdowns(0.21, 0.20))[2];
  CHECK(good.met());
  CHECK(good.worst == Approx(0.01));
  CHECK(good.where == "touchdown");
  const Target bad = targets_of(with_touchdowns(0.18, 0.20))[2];
  CHECK_FALSE(bad.met());
  CHECK(bad.missed == 1);
  CHECK(bad.worst == Approx(-0.02));
}

// Of 100 drives fewer than 40 or more than 60 end in what half of them are expected to with chance
// .0352 (the binomial's sum); the other results cannot come up. A share of a half has a standard
// error of 5 points there.
TEST_CASE("misses among many counted shares are held against what chance gives") {
  const auto cells = [](double observed) {
    ValidationReport made = with_touchdowns(0.5, observed);
    made.drives.front().observed.start = "own_25";
    made.drives.front().observed.yards_to_goal = {75, 75};
    made.drives.front().observed.n = 100;
    return targets_of(made).back();
  };
  REQUIRE(cells(0.6).by_chance);
  CHECK(*cells(0.6).by_chance == Approx(0.0352002).epsilon(1e-5));
  CHECK(cells(0.6).rows == 8);
  CHECK(cells(0.6).missed == 0);
  CHECK(cells(0.6).met());
  CHECK(cells(0.61).missed == 1);
  CHECK_FALSE(cells(0.61).met());
  CHECK(cells(0.61).beyond == std::vector<std::string>{"touchdown from own_25 -11.0"});
}

TEST_CASE("a target without rows is neither met nor missed") {
  const ValidationReport made = with_touchdowns(0.2, 0.2);
  ValidationReport few = made;
  few.targets = targets_of(made);
  const Target& by_start = few.targets[3];
  CHECK_FALSE(by_start.has_data());
  CHECK_FALSE(by_start.met());
  const std::string text = validation_text(few);
  const std::size_t line = text.find(by_start.what);
  REQUIRE(line != std::string::npos);
  CHECK(text.substr(line, text.find('\n', line) - line).ends_with("no data"));
}

TEST_CASE("the report fits a terminal of 100 columns and shows no NaN") {
  const std::string text = validation_text(report());
  CHECK(text.find("nan") == std::string::npos);
  std::size_t start = 0;
  for (std::size_t end = text.find('\n'); end != std::string::npos; end = text.find('\n', start)) {
    CHECK(end - start <= 100);
    start = end + 1;
  }
}

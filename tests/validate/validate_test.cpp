// The shipped professional setting against real drives of 2015-2018 (settings/observed; source in
// the file): the targets were set before the model was built.
#include "shipped.hpp"

#include <callfit/io/observed_file.hpp>
#include <callfit/report/validation_report.hpp>
#include <callfit/validate/validate.hpp>

#include "validate/targets.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace callfit;

namespace {

const ValidationReport& report() {
  static const ValidationReport once =
      validate_setting(shipped::professional(), shipped::league_average(),
                       read_observed(shipped::root + "settings/observed/pro-2015-2018.json"));
  return once;
}

const Target& target(const std::string& beginning) {
  const auto found =
      std::find_if(report().targets.begin(), report().targets.end(),
                   [&](const Target& entry) { return entry.what.rfind(beginning, 0) == 0; });
  REQUIRE(found != report().targets.end());
  return *found;
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

TEST_CASE("the average professional offence is within the targets of real drives") {
  CHECK(target("points per drive").met());
  CHECK(target("plays per drive").met());
  CHECK(target("share of each result, all drives").met());
  CHECK(target("share of each result by start").met());
  CHECK(target("series converted, all").met());
}

TEST_CASE("expected points at first and ten stay near the data but for noisy bands") {
  // Own 15-19 is counted .4 above both its neighbours (standard error .17); the model is smooth.
  const Target& points = target("next-score points");
  CHECK(points.rows == 18);
  CHECK(points.missed <= 1);
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

TEST_CASE("the report fits a terminal of 100 columns and shows no NaN") {
  const std::string text = validation_text(report());
  CHECK(text.find("nan") == std::string::npos);
  std::size_t start = 0;
  for (std::size_t end = text.find('\n'); end != std::string::npos; end = text.find('\n', start)) {
    CHECK(end - start <= 100);
    start = end + 1;
  }
}

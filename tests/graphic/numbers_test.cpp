// Pictures say what texts say: the same numbers, written the same way.
#include "drawn.hpp"
#include "samples.hpp"

#include <callfit/draw/svg.hpp>
#include <callfit/report/answer_text.hpp>
#include <callfit/report/number_text.hpp>
#include <callfit/report/validation_report.hpp>

#include <catch2/catch.hpp>

#include <regex>
#include <set>

using namespace callfit;
using callfit::samples::wording;

namespace {

constexpr double above_foot = 20;  // pixels; ticks and the footer of a wide frame are smaller

// Percentages, decimals and signed numbers; whole numbers are counts and names as well.
std::set<std::string> numbers_in(const std::string& text) {
  static const std::regex number(R"([+-]?\d+(\.\d+)?%|[+-]?\d+\.\d+|[+-]\d+)");
  return {std::sregex_token_iterator(text.begin(), text.end(), number),
          std::sregex_token_iterator()};
}

// "21 to 34%" carries the sign of the unit once.
std::set<std::string> with_percent_ends(std::set<std::string> numbers, const std::string& text) {
  static const std::regex low(R"((\d+(\.\d+)?) to \d+(\.\d+)?%)");
  for (std::sregex_iterator it(text.begin(), text.end(), low), end; it != end; ++it)
    numbers.insert((*it)[1]);
  return numbers;
}

std::set<std::string> only_in_picture(const Panel& panel, const std::string& text) {
  const auto said = with_percent_ends(numbers_in(text), text);
  std::set<std::string> extra;
  for (const std::string& number : numbers_in(drawn_of(panel).all_text(above_foot)))
    if (said.count(number) == 0) extra.insert(number);
  return extra;
}

void check_same(const Panel& panel, const std::string& text) {
  const auto extra = only_in_picture(panel, text);
  CAPTURE(extra, text);
  CHECK(extra.empty());
}

}  // namespace

TEST_CASE("the check finds a number that only the picture has") {
  FitAnswer other = samples::fit();
  for (DemandAnswer& demand : other.demands) demand.asked += 0.013;
  CHECK_FALSE(
      only_in_picture(fit_panel(samples::fit(), std::nullopt, wording), fit_text(other)).empty());
}

TEST_CASE("every number of a picture stands in the text of the same answer") {
  check_same(fit_panel(samples::fit(), std::nullopt, wording), fit_text(samples::fit()));
  check_same(comparison_panel(samples::comparison(), wording), compare_text(samples::comparison()));
  check_same(levers_panel(samples::levers(), 15, wording), levers_text(samples::levers()));
  check_same(trend_panel(samples::trend(), wording), trend_text(samples::trend()));
  check_same(validation_panel(samples::validation(), wording),
             validation_text(samples::validation()));
}

TEST_CASE("a fit picture holds every number as the table prints it") {
  const FitAnswer fit = samples::fit();
  const std::string text = fit_text(fit);
  const Drawn drawn = drawn_of(fit_panel(fit, std::nullopt, wording), Frame::story);
  for (const DemandAnswer& demand : fit.demands) {
    const Unit unit = unit_of_measure(demand.in_yards);
    for (const double value : {demand.estimate.centre, demand.asked}) {
      CAPTURE(demand.label, value_text(unit, value));
      CHECK(drawn.says(value_text(unit, value)));
      CHECK(text.find(value_text(unit, value)) != std::string::npos);
    }
    CHECK(drawn.description.find(number_text(unit, demand.estimate)) != std::string::npos);
  }
  const std::string place = "54 of 100 quarterbacks of this level fit it worse; 21 to 80";
  CHECK(drawn.description.find(place) != std::string::npos);
  std::string joined = text;
  for (char& c : joined)
    if (c == '\n') c = ' ';
  CHECK(joined.find(place) != std::string::npos);
}

TEST_CASE("drive results are written as the table of drives writes them") {
  const DrivesAnswer first = samples::drives();
  const DrivesAgainst against = samples::against();
  const Drawn drawn = drawn_of(drive_results_panel(first, against, wording));
  for (const DrivesAnswer* drives : {&first, &against.drives}) {
    const std::string text = drives_text(*drives);
    CHECK(drawn.says(number_text(Unit::points, drives->points)));
    CHECK(text.find(value_text(Unit::points, drives->points.centre)) != std::string::npos);
    for (const NamedNumber& result : drives->results) {
      const std::string share = value_text(Unit::share, result.number.centre);
      CAPTURE(result.label, share);
      CHECK(drawn.says(share));
      CHECK(text.find(share) != std::string::npos);
    }
  }
  for (const Number& number :
       {against.difference.net_points_per_drive, against.difference.net_points_per_game})
    CHECK(drawn.says(number_text(Unit::signed_points, number)));
}

TEST_CASE("a swept curve's headline and a grid's cells are written as the table writes them") {
  const Panel curve = sweep_panel(samples::sweep(), wording);
  const auto said = numbers_in(sweep_text(samples::sweep()));
  for (const std::string& number :
       numbers_in(curve.telling.headline + curve.telling.deck.front() + curve.telling.description))
    CHECK(said.count(number) == 1);
  const SweepAnswer grid = samples::grid();
  const std::string text = sweep_text(grid);
  const Drawn drawn = drawn_of(sweep_panel(grid, wording));
  for (const auto& row : grid.cells)
    for (const SweepCell& cell : row) {
      const Number& change = cell.net_points_per_game_change;
      CHECK(drawn.says(value_text(Unit::signed_points, change.centre)));
      CHECK(drawn.says(range_text(Unit::signed_points, change)));
      CHECK(text.find(value_text(Unit::signed_points, change.centre)) != std::string::npos);
    }
}

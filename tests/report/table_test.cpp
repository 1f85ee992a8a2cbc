#include <callfit/report/number_text.hpp>
#include <callfit/report/table.hpp>

#include <catch2/catch.hpp>

#include <limits>

using namespace callfit;

TEST_CASE("columns line up, also with accents, and no line ends in spaces") {
  Table table({{"who", Align::left}, {"share"}});
  table.add({"Zoë", "9.1%"});
  table.add({"Someone else"});
  CHECK(table.text() ==
        "who           share\n"
        "------------  -----\n"
        "Zoë            9.1%\n"
        "Someone else\n");
}

TEST_CASE("long cells are cut and extra cells refused") {
  Table table({{"who", Align::left, 6}});
  table.add({"Bartholomäus"});
  CHECK(table.text() == "who\n------\nBarth…\n");
  Table alike({{"rate", Align::left, 24}});
  alike.add({"completion of quick throws, high"});
  alike.add({"completion of quick throws, to the middle"});
  CHECK(alike.text() ==
        "rate\n------------------------\ncompletion of qui…, high\ncompletion of quick thr…\n");
  CHECK_THROWS_AS(table.add({"a", "b"}), std::invalid_argument);
}

TEST_CASE("numbers are written without negative zeros") {
  CHECK(fixed(1.236, 2) == "1.24");
  CHECK(fixed(-0.001, 2) == "0.00");
  CHECK(signed_fixed(0.214, 2) == "+0.21");
  CHECK(signed_fixed(-0.066, 2) == "-0.07");
  CHECK(signed_fixed(-0.001, 2) == "0.00");
  CHECK(percent(0.294) == "29%");
  CHECK(percent(0.0249) == "2.5%");
  CHECK(percent(0) == "0%");
  CHECK(percent_range(Interval{0.21, 0.34}) == "21-34%");
  CHECK(range(Interval{-0.5, 1.25}, 1, true) == "-0.5 to +1.2");
}

TEST_CASE("a number that is none is never printed") {
  CHECK_THROWS_AS(fixed(std::numeric_limits<double>::quiet_NaN(), 1), std::logic_error);
  CHECK_THROWS_AS(percent(std::numeric_limits<double>::infinity()), std::logic_error);
}

TEST_CASE("text wraps at words") {
  CHECK(wrapped("one two three", 8, "  ") == "  one\n  two\n  three\n");
  CHECK(wrapped("one two three", 9) == "one two\nthree\n");
}

TEST_CASE("a number is written by what it is, its range with the unit once") {
  const Number share{0.294, 0.049, 0.34};
  CHECK(value_text(Unit::share, share.centre) == "29%");
  CHECK(range_text(Unit::share, share) == "4.9-34%");
  CHECK(number_text(Unit::share, share) == "29% (4.9-34%)");
  CHECK(number_text(Unit::yards, {7.24, 6, 8.01}) == "7.2 yd (6.0 to 8.0 yd)");
  CHECK(number_text(Unit::points, {2.134, 1.9, 2.4}) == "2.13 (1.90 to 2.40)");
  CHECK(number_text(Unit::signed_points, {0.214, -0.066, 0.5}) == "+0.21 (-0.07 to +0.50)");
  CHECK(number_text(Unit::place, {54.4, 21, 79.6}) == "54 (21 to 80)");
  CHECK(value_text(Unit::signed_place, 3.21) == "+3.2");
  CHECK(value_text(Unit::distance, 0.1236) == "0.124");
  CHECK(knob_text(KnobUnit::share, 0.025) == "2.5%");
  CHECK(knob_text(KnobUnit::yards, 7.2) == "7.2 yd");
  CHECK(knob_text(KnobUnit::number, 1.5) == "1.50");
  CHECK(with_dashes(range_text(Unit::signed_points, {0, -1.5, 0.5})) == "–1.50 to +0.50");
  CHECK(with_dashes("21-34%") == "21–34%");
  CHECK_THROWS_AS(range_text(Unit::place, {1, std::numeric_limits<double>::quiet_NaN(), 2}),
                  std::logic_error);
}

TEST_CASE("a line of its own runs across the columns and widens none") {
  Table table({{"a", Align::left}, {"b"}});
  table.add_line("over everything");
  table.add({"x", "1"});
  CHECK(table.text() == "a  b\n-  -\nover everything\nx  1\n");
}

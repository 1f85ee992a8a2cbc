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

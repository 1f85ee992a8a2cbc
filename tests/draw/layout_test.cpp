#include <callfit/draw/geometry.hpp>
#include <callfit/draw/scale.hpp>

#include <catch2/catch.hpp>

using namespace callfit;

TEST_CASE("cutting a box keeps its area in one piece") {
  Box box{10, 20, 100, 60};
  const Box top = box.take_top(15, 5);
  CHECK(top.bottom() == 35);
  CHECK(box.y == 40);
  CHECK(box.bottom() == 80);
  const Box right = box.take_right(30, 10);
  CHECK(right.x == 80);
  CHECK(box.right() == 70);
  const Box all = box.take_left(1000);
  CHECK(all.width == 60);
  CHECK(box.width == 0);
}

TEST_CASE("columns and rows are equal, apart and fill the box") {
  const Box box{0, 0, 100, 50};
  const auto three = columns(box, 3, 5);
  REQUIRE(three.size() == 3);
  CHECK(three[0].width == Approx(30));
  CHECK(three[1].x == Approx(35));
  CHECK(three[2].right() == Approx(100));
  const auto two = rows(box, 2, 10);
  CHECK(two[1].y == Approx(30));
  CHECK(two[1].bottom() == Approx(50));
}

TEST_CASE("boxes overlap or not") {
  const Box a{0, 0, 10, 10};
  CHECK(a.overlaps({9, 9, 10, 10}));
  CHECK_FALSE(a.overlaps({10, 0, 10, 10}));
  CHECK_FALSE(a.overlaps({9, 9, 10, 10}, 1));
  CHECK(a.contains({1, 1, 9, 9}));
  CHECK_FALSE(a.contains({1, 1, 9.5, 9}));
}

TEST_CASE("a scale maps its ends, runs backward and survives no width") {
  const LinearScale down(0, 10, 100, 0);
  CHECK(down(0) == 100);
  CHECK(down(10) == 0);
  CHECK(down(2.5) == 75);
  CHECK(down.clamped(99) == 0);
  const LinearScale flat(3, 3, 0, 100);
  CHECK(flat(3) == Approx(50));
}

// Heckbert, "Nice numbers for graph labels", Graphics Gems (1990): steps of 1, 2, 5 x 10^n.
TEST_CASE("ticks are round numbers inside the range") {
  CHECK(round_ticks(0, 1, 5) == std::vector<double>{0, 0.2, 0.4, 0.6000000000000001, 0.8, 1.0});
  CHECK(round_ticks(-2.4, 3.1, 6) == std::vector<double>{-2, -1, 0, 1, 2, 3});
  CHECK(round_ticks(7, 7, 5).size() >= 1);
  const Range range = round_range(-2.1, 7.1, 5);
  CHECK(range.low == -4);
  CHECK(range.high == 8);
  CHECK(decimals_of({0, 0.5, 1}) == 1);
  CHECK(decimals_of({0, 10, 20}) == 0);
  CHECK(decimals_of({0, 0.02}) == 2);
}

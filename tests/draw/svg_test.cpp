#include <callfit/draw/raster.hpp>
#include <callfit/draw/svg.hpp>

#include "png_pixels.hpp"

#include <catch2/catch.hpp>
#include <pugixml.hpp>

#include <chrono>
#include <cmath>
#include <limits>
#include <thread>

using namespace callfit;

namespace {

Figure small_figure() {
  Figure figure{80, 40, {255, 255, 255}, "A <title> & \"more\"", "what it says", {}};
  const Paint blue{Colour{0, 0, 255}, std::nullopt, Role::mark};
  figure.content.nodes.push_back({RectShape{{10, 10, 20, 10}, 0, blue}});
  figure.content.nodes.push_back(
      {LineShape{{0, 0}, {80, 0.125}, {std::nullopt, Stroke{{1, 2, 3}, 2, {4, 2}}, Role::decor}}});
  figure.content.nodes.push_back({TextShape{{5, 30},
                                            "a < b & \x01\xff\xEF\xBF\xBE",
                                            {"Noto Sans", 12, true, false},
                                            {0, 0, 0},
                                            Anchor::end}});
  Group clipped{"inside", Box{0, 0, 12, 40}, {}};
  clipped.nodes.push_back(
      {CircleShape{{12, 25}, 6, {Colour{255, 0, 0}, std::nullopt, Role::decor}}});
  figure.content.nodes.push_back({clipped});
  return figure;
}

}  // namespace

TEST_CASE("numbers have two decimals at most, no exponent and no negative zero") {
  CHECK(svg_number(1.0) == "1");
  CHECK(svg_number(1.5) == "1.5");
  CHECK(svg_number(-0.001) == "0");
  CHECK(svg_number(1e7 / 3) == "3333333.33");
  CHECK_THROWS_AS(svg_number(std::nan("")), std::invalid_argument);
  CHECK_THROWS_AS(svg_number(std::numeric_limits<double>::infinity()), std::invalid_argument);
}

// RFC 4648 section 10, test vectors.
TEST_CASE("base 64") {
  CHECK(base64("") == "");
  CHECK(base64("f") == "Zg==");
  CHECK(base64("fo") == "Zm8=");
  CHECK(base64("foo") == "Zm9v");
  CHECK(base64("foobar") == "Zm9vYmFy");
}

TEST_CASE("the document is well formed and says what it is") {
  pugi::xml_document document;
  const std::string svg = to_svg(small_figure());
  REQUIRE(document.load_string(svg.c_str()));
  const pugi::xml_node root = document.child("svg");
  CHECK(std::string(root.attribute("role").value()) == "img");
  CHECK(std::string(root.attribute("aria-labelledby").value()) == "title desc");
  // SVG 2 section 5.8: title and desc come first.
  const pugi::xml_node title = root.first_child(), desc = title.next_sibling();
  CHECK(std::string(title.name()) == "title");
  CHECK(std::string(title.attribute("id").value()) == "title");
  CHECK(std::string(title.text().get()) == "A <title> & \"more\"");
  CHECK(std::string(desc.name()) == "desc");
  CHECK(std::string(desc.text().get()) == "what it says");
  const std::string text = root.child("text").text().get();
  // A control character, a broken byte and what is no character are mended.
  CHECK(text == "a < b &  \xef\xbf\xbd ");
  CHECK(to_svg(small_figure()) == svg);
}

TEST_CASE("a PNG has the wanted pixels, and the clip holds") {
  const Pixels pixels = decode_png(to_png(to_svg(small_figure()), 80, 40));
  CHECK(pixels.width == 80);
  CHECK(pixels.height == 40);
  CHECK(pixels.at(20, 15) == Colour{0, 0, 255});
  CHECK(pixels.at(70, 35) == Colour{255, 255, 255});
  CHECK(pixels.at(9, 25) == Colour{255, 0, 0});
  CHECK(pixels.at(15, 25) == Colour{255, 255, 255});
  const Pixels doubled = decode_png(to_png(to_svg(small_figure()), 160, 80));
  CHECK(doubled.at(40, 30) == Colour{0, 0, 255});
}

TEST_CASE("PNG and PDF are the same bytes every time") {
  const std::string svg = to_svg(small_figure());
  CHECK(to_png(svg, 80, 40) == to_png(svg, 80, 40));
  const std::string pdf = to_pdf(svg, 80, 40);
  CHECK(pdf.substr(0, 5) == "%PDF-");
  CHECK(pdf.find("/MediaBox [ 0 0 80 40 ]") != std::string::npos);
  // Were the time of day in it, the next second would change it.
  std::this_thread::sleep_for(std::chrono::milliseconds(1100));
  CHECK(to_pdf(svg, 80, 40) == pdf);
}

TEST_CASE("a broken document is refused") {
  CHECK_THROWS_AS(to_png("<svg", 10, 10), std::runtime_error);
  CHECK_THROWS_AS(to_pdf("", 10, 10), std::runtime_error);
}

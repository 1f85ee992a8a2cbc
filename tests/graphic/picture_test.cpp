#include "drawn.hpp"
#include "png_pixels.hpp"
#include "random_values.hpp"

#include <callfit/draw/raster.hpp>
#include <callfit/draw/svg.hpp>

#include <catch2/catch.hpp>

#include <fstream>
#include <sstream>

using namespace callfit;

namespace {

constexpr Theme themes[] = {Theme::light, Theme::dark};

std::string file_text(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

// How far two pictures differ: mean over all channels, and the share of pixels that differ
// plainly. Other versions of the font renderer move edges by fractions of a pixel.
struct PixelDifference {
  double mean = 0;
  double plain = 0;
};

PixelDifference pixel_difference(const Pixels& a, const Pixels& b) {
  PixelDifference result;
  for (std::size_t i = 0; i < a.colours.size(); ++i) {
    const Colour &p = a.colours[i], &q = b.colours[i];
    const int d = std::abs(p.red - q.red) + std::abs(p.green - q.green) + std::abs(p.blue - q.blue);
    result.mean += d / 3.0;
    if (d > 150) ++result.plain;
  }
  const auto n = static_cast<double>(a.colours.size());
  return {result.mean / n, result.plain / n};
}

}  // namespace

TEST_CASE("text reaches 4.5:1 and marks 3:1 in every picture, by the file itself") {
  const TextRuler ruler;
  for (const Frame frame : every_frame)
    for (const Theme theme : themes)
      for (const auto& [name, made] : samples::all_figures(samples::dress(frame, theme), ruler)) {
        const auto faint = too_faint(read_svg(to_svg(made), ruler));
        CAPTURE(name, word(frame), word(theme), faint);
        CHECK(faint.empty());
      }
}

TEST_CASE("the check of contrast finds faint text and marks") {
  const TextRuler ruler;
  Figure faint{100, 100, {255, 255, 255}, "t", "d", {}};
  const Font font{"Noto Sans", 20, false, false};
  faint.content.nodes.push_back(
      {RectShape{{0, 0, 50, 100}, 0, {Colour{0, 0, 0}, std::nullopt, Role::decor}}});
  faint.content.nodes.push_back(
      {TextShape{{60, 50}, "abc", font, {0x77, 0x77, 0x77}, Anchor::start}});
  CHECK_FALSE(too_faint(read_svg(to_svg(faint), ruler)).empty());
  faint.content.nodes.back() = {TextShape{{5, 50}, "abc", font, {0x77, 0x77, 0x77}, Anchor::start}};
  CHECK(contrast({0x77, 0x77, 0x77}, {0, 0, 0}) > 4.5);
  CHECK(too_faint(read_svg(to_svg(faint), ruler)).empty());
  faint.content.nodes.push_back(
      {CircleShape{{75, 20}, 9, {Colour{0xaa, 0xaa, 0xaa}, std::nullopt, Role::mark}}});
  CHECK(too_faint(read_svg(to_svg(faint), ruler)).size() == 1);
}

TEST_CASE("pictures have the exact size of their frame, as SVG and as PNG") {
  const std::pair<int, int> sizes[] = {{1920, 1080}, {1080, 1350}, {1080, 1920}};
  for (const Frame frame : every_frame) {
    const auto [width, height] = sizes[static_cast<std::size_t>(frame)];
    CHECK(size_of(frame).width == width);
    CHECK(size_of(frame).height == height);
    const Dress dress = samples::dress(frame, Theme::dark);
    const Figure made =
        figure(fit_panel(samples::fit(), samples::difference(), dress.wording), dress);
    CHECK(made.width == width);
    CHECK(made.height == height);
    const Pixels pixels = decode_png(to_png(to_svg(made), width, height));
    CHECK(pixels.width == width);
    CHECK(pixels.height == height);
  }
}

TEST_CASE("equal values are equal bytes") {
  const TextRuler one, other;
  const Dress dress = samples::dress(Frame::tall, Theme::light);
  const auto first = samples::all_figures(dress, one), second = samples::all_figures(dress, other);
  for (std::size_t i = 0; i < first.size(); ++i)
    CHECK(to_svg(first[i].second) == to_svg(second[i].second));
}

TEST_CASE("pictures look as they were approved", "[plain]") {
  for (const auto& [name, made] : samples::golden_figures()) {
    INFO(name);
    const std::string png = samples::png_of_width(made, 480);
    const std::string approved =
        file_text(CALLFIT_SOURCE_DIR "/tests/graphic/golden/" + name + ".png");
    REQUIRE_FALSE(approved.empty());
    const Pixels now = decode_png(png), then = decode_png(approved);
    REQUIRE(now.width == then.width);
    REQUIRE(now.height == then.height);
    const PixelDifference d = pixel_difference(now, then);
    CAPTURE(d.mean, d.plain);
    const bool same = d.mean < 1.0 && d.plain < 0.002;
    if (!same) std::ofstream(name + ".png.unapproved", std::ios::binary) << png;
    CHECK(same);
  }
}

TEST_CASE("the comparison of pictures notices a changed word", "[plain]") {
  FitAnswer changed = samples::fit();
  const Dress dress = samples::dress(Frame::wide, Theme::light);
  const auto pixels = [&] {
    return decode_png(
        samples::png_of_width(figure(fit_panel(changed, std::nullopt, dress.wording), dress), 480));
  };
  const Pixels before = pixels();
  changed.about.quarterback = "Avery Lumb";
  const PixelDifference d = pixel_difference(before, pixels());
  CHECK((d.mean >= 1.0 || d.plain >= 0.002));
}

TEST_CASE("a logo is drawn in its slot, whole, from PNG and from SVG") {
  Dress dress = samples::dress(Frame::wide, Theme::light);
  const Panel panel = fit_panel(samples::fit(), samples::difference(), dress.wording);
  const std::string red_svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"40\" height=\"40\">"
      "<rect width=\"40\" height=\"40\" fill=\"#ff0000\"/></svg>";
  const std::pair<std::string, std::string> logos[] = {{"image/svg+xml", red_svg},
                                                       {"image/png", to_png(red_svg, 40, 40)}};
  for (const auto& [type, bytes] : logos) {
    dress.logo = Logo{type, bytes};
    const Pixels pixels = decode_png(to_png(to_svg(figure(panel, dress)), 1920, 1080));
    std::size_t red = 0;
    for (const Colour& c : pixels.colours) red += c == Colour{255, 0, 0} ? 1U : 0U;
    CAPTURE(type);
    CHECK(red > 3000);
  }
}

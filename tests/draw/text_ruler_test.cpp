#include <callfit/base/isolated.hpp>
#include <callfit/draw/canvas.hpp>
#include <callfit/draw/raster.hpp>
#include <callfit/draw/style.hpp>
#include <callfit/draw/svg.hpp>
#include <callfit/draw/text_ruler.hpp>

#include "png_pixels.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace callfit;

namespace {

const Font sans{house_style(Theme::light).text_family, 30, false, false};
const Font bold{house_style(Theme::light).text_family, 30, true, false};

// Where librsvg really puts ink, read off the pixels.
Box drawn_ink(const std::string& text, const Font& font) {
  Figure figure{900, 120, {255, 255, 255}, "t", "d", {}};
  figure.content.nodes.push_back({TextShape{{60, 70}, text, font, {0, 0, 0}, Anchor::start}});
  const Pixels pixels = decode_png(to_png(to_svg(figure), figure.width, figure.height));
  int left = pixels.width, right = 0, top = pixels.height, bottom = 0;
  for (int y = 0; y < pixels.height; ++y)
    for (int x = 0; x < pixels.width; ++x) {
      if (pixels.at(x, y).green > 160) continue;
      left = std::min(left, x);
      right = std::max(right, x + 1);
      top = std::min(top, y);
      bottom = std::max(bottom, y + 1);
    }
  return {left - 60.0, top - 70.0, static_cast<double>(right - left),
          static_cast<double>(bottom - top)};
}

}  // namespace

TEST_CASE("the packaged font is there, with accents, Hebrew and Arabic behind it") {
  const auto families = TextRuler{}.families();
  for (const char* wanted : {"Noto Sans", "Noto Serif", "Noto Sans Hebrew", "Noto Sans Arabic"})
    CHECK(std::find(families.begin(), families.end(), wanted) != families.end());
}

TEST_CASE("measured ink is the ink that is drawn") {
  const TextRuler ruler;
  for (const std::string text :
       {"Handoffs 34%", "Íñigo Çelik-Åström", "דוד לוי", "يوسف الحسن", "Wide \u2068דוד\u2069 12"})
    for (const Font& font : {sans, bold}) {
      const Box measured = ruler.measure(text, font).ink, drawn = drawn_ink(text, font);
      INFO(text);
      // Antialiasing blurs an edge by up to a pixel on either side.
      CHECK(measured.x == Approx(drawn.x).margin(2));
      CHECK(measured.right() == Approx(drawn.right()).margin(2));
      CHECK(measured.y == Approx(drawn.y).margin(2));
      CHECK(measured.bottom() == Approx(drawn.bottom()).margin(2));
    }
}

TEST_CASE("width grows with size and weight, and composed letters are as wide as one") {
  const TextRuler ruler;
  const double normal = ruler.measure("Quick middle", sans).width;
  Font twice = sans;
  twice.size *= 2;
  CHECK(ruler.measure("Quick middle", twice).width == Approx(2 * normal).epsilon(1e-3));
  CHECK(ruler.measure("Quick middle", bold).width > normal);
  CHECK(ruler.measure("e\u0301", sans).width == Approx(ruler.measure("\u00e9", sans).width));
  CHECK(ruler.measure("", sans).width == 0);
}

TEST_CASE("shortening fits, keeps what it can and does nothing when there is room") {
  const TextRuler ruler;
  const std::string text = "Intermediate from the pocket";
  CHECK(ruler.shorten(text, sans, 1000) == text);
  for (double width = 20; width < 400; width += 13) {
    const std::string cut = ruler.shorten(text, sans, width);
    CHECK(ruler.measure(cut, sans).width <= width);
    if (cut != text && !cut.empty()) CHECK(cut.substr(cut.size() - 3) == "\u2026");
  }
  // A letter keeps its accent: a cut falls only between what a reader takes as characters.
  const std::string accents = "e\u0301e\u0301e\u0301e\u0301e\u0301";
  const std::string cut = ruler.shorten(accents, sans, ruler.measure("eee", sans).width + 8);
  CHECK(cut.size() % 3 == 0);
  CHECK(ruler.shorten(text, sans, 2).empty());
}

TEST_CASE("wrapping loses no word, fits every line and shortens only the last") {
  const TextRuler ruler;
  const std::string text = "Small samples. Not for medical, eligibility or betting decisions.";
  const auto lines = ruler.wrap(text, sans, 260, 10);
  std::string joined;
  for (const std::string& line : lines) {
    CHECK(ruler.measure(line, sans).width <= 260);
    joined += (joined.empty() ? "" : " ") + line;
  }
  CHECK(joined == text);
  const auto two = ruler.wrap(text, sans, 260, 2);
  REQUIRE(two.size() == 2);
  CHECK(two[0] == lines[0]);
  CHECK(two[1].substr(two[1].size() - 3) == "\u2026");
  CHECK(ruler.wrap("", sans, 100, 3).empty());
  for (const std::string& line : ruler.wrap("Donaudampfschifffahrtsgesellschaft", sans, 90, 20))
    CHECK(ruler.measure(line, sans).width <= 90);
}

TEST_CASE("smaller letters come before fewer") {
  Group group;
  const TextRuler ruler;
  const Style style = house_style(Theme::light);
  Canvas canvas(group, style, ruler, TextScale{});
  const Words words{"net points a drive, and a game", 30, Ink::ink};
  const double natural = canvas.width_of(words);
  CHECK(canvas.fitted(words, natural + 1, 1).size == words.size);
  const Words small = canvas.fitted(words, 0.85 * natural, 1);
  CHECK(small.size < 0.86 * words.size);
  CHECK(canvas.width_of(small) <= 0.85 * natural);
  const double least = canvas.fitted(words, 0.5 * natural, 1).size;
  CHECK(least >= 0.8 * words.size);
  CHECK(least < 0.83 * words.size);
  // What is written fits, whole where that goes.
  canvas.write(words, {0, 50}, 0.85 * natural);
  CHECK(std::get<TextShape>(group.nodes.back().shape).text == words.text);
  CHECK(canvas.write_block(words, {0, 0, 0.85 * natural, 100}, 1) <
        canvas.block_height(words, natural, 1));
}

TEST_CASE("only names that may run from right to left are set apart") {
  CHECK(isolated("Íñigo Çelik-Åström, Jr.") == "Íñigo Çelik-Åström, Jr.");
  CHECK(isolated("דוד לוי") == "\u2068דוד לוי\u2069");
  CHECK(isolated("يوسف") == "\u2068يوسف\u2069");
}

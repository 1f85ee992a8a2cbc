#include <callfit/draw/colour.hpp>
#include <callfit/draw/style.hpp>

#include <catch2/catch.hpp>

using namespace callfit;

namespace {
Colour hex(const char* text) { return parse_colour(text).value(); }
}  // namespace

TEST_CASE("colours are written and read as #rrggbb") {
  CHECK(to_hex({1, 171, 255}) == "#01abff");
  CHECK(hex("#01ABff") == Colour{1, 171, 255});
  for (const char* bad : {"", "#fff", "01abff1", "#01abfg", "#01abff0", "# 1abff", "#-1abff"})
    CHECK_FALSE(parse_colour(bad));
}

// WCAG 2.2, definitions of relative luminance and contrast ratio; the ratios of the greys and
// primaries are widely published (#767676 is the lightest grey that passes on white).
TEST_CASE("contrast follows the WCAG formula") {
  const Colour white = hex("#ffffff"), black = hex("#000000");
  CHECK(contrast(white, black) == Approx(21.0));
  CHECK(contrast(black, white) == Approx(21.0));
  CHECK(contrast(white, white) == Approx(1.0));
  CHECK(contrast(hex("#767676"), white) == Approx(4.5422).epsilon(1e-4));
  CHECK(contrast(hex("#777777"), white) == Approx(4.4781).epsilon(1e-4));
  CHECK(contrast(hex("#949494"), white) == Approx(3.0335).epsilon(1e-4));
  CHECK(contrast(hex("#ff0000"), white) == Approx(3.9985).epsilon(1e-4));
  CHECK(relative_luminance(hex("#0000ff")) == Approx(0.0722));
  CHECK(relative_luminance(hex("#800080")) == Approx(0.061477).epsilon(1e-4));
}

// Ottosson 2020: white is L = 1, a = b = 0 in Oklab, black the origin; sRGB red has
// L = 0.628, a = 0.225, b = 0.126 (from memory).
TEST_CASE("Oklab distances") {
  CHECK(oklab_distance(hex("#ffffff"), hex("#000000")) == Approx(1.0).epsilon(1e-3));
  CHECK(oklab_distance(hex("#ff0000"), hex("#000000")) ==
        Approx(std::sqrt(0.628 * 0.628 + 0.225 * 0.225 + 0.126 * 0.126)).epsilon(2e-3));
  CHECK(oklab_distance(hex("#123456"), hex("#123456")) == 0.0);
}

TEST_CASE("the nearest passing colour passes, and the step before it does not") {
  for (const char* wanted : {"#ffd000", "#88aacc", "#cc79a7", "#777777", "#ff0000"})
    for (const char* ground : {"#ffffff", "#000000", "#fbfbf6", "#0e1813", "#808080"})
      for (const double limit : {text_contrast, mark_contrast}) {
        const auto passing = nearest_passing(hex(wanted), hex(ground), limit);
        REQUIRE(passing);
        CHECK(contrast(*passing, hex(ground)) >= limit);
        if (contrast(hex(wanted), hex(ground)) >= limit) CHECK(*passing == hex(wanted));
      }
  // On white only darker colours help; one step lighter must fail.
  const Colour found = nearest_passing(hex("#777777"), hex("#ffffff"), 4.5).value();
  CHECK(found == hex("#767676"));
  CHECK_FALSE(nearest_passing(hex("#777777"), hex("#777777"), 21.0));
}

TEST_CASE("text stays readable on any ground") {
  for (int level = 0; level <= 255; level += 5) {
    const auto grey = static_cast<std::uint8_t>(level);
    const Colour ground{grey, grey, grey};
    CHECK(contrast(readable_on(ground, hex("#13221b"), hex("#fbfbf6")), ground) >= text_contrast);
  }
}

TEST_CASE("the house styles pass, a pale one is named with its mend") {
  for (const Theme theme : {Theme::light, Theme::dark})
    CHECK(check_contrast(house_style(theme), "style.json", "/light").empty());

  Style pale = house_style(Theme::light);
  pale[Ink::first] = hex("#9db7d9");
  const Findings findings = check_contrast(pale, "style.json", "/colours/light");
  REQUIRE(findings.size() == 3);  // on paper, on strips, on the field
  CHECK(findings[0].place.file == "style.json");
  CHECK(findings[0].place.field == "/colours/light/first");
  CHECK(findings[0].what == "#9db7d9 on paper #fbfbf6 has contrast 1.98, below 4.5");
  const auto mend = nearest_passing(pale[Ink::first], pale[Ink::paper], text_contrast);
  CHECK(findings[0].mend == "the nearest colour that passes is " + to_hex(mend.value()));
}

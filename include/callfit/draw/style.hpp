// Colours and fonts of a drawing, light and dark, and the check that it can be read.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/base/names.hpp>
#include <callfit/draw/figure.hpp>

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

namespace callfit {

/// What a colour is for.
enum class Ink {
  paper,       ///< ground of the page
  strip,       ///< ground of every other row
  ink,         ///< text, reference lines
  quiet,       ///< lesser text
  rule,        ///< fine lines that carry nothing
  first,       ///< marks and names of the first player
  second,      ///< marks and names of the second player
  stick,       ///< the line to be reached
  field,       ///< grass
  field_line,  ///< lines on the grass, decor
  masthead,    ///< ground of the masthead
  masthead_ink,
  masthead_quiet,
};
inline constexpr std::size_t ink_count = 13;

template <>
inline constexpr auto enum_words<Ink> = std::to_array<std::string_view>(
    {"paper", "strip", "ink", "quiet", "rule", "first", "second", "stick", "field", "field_line",
     "masthead", "masthead_ink", "masthead_quiet"});

enum class Theme { light, dark };

template <>
inline constexpr auto enum_words<Theme> = std::to_array<std::string_view>({"light", "dark"});

struct Style {
  Theme theme = Theme::light;
  std::array<Colour, ink_count> colours{};
  std::string headline_family;
  std::string text_family;

  Colour operator[](Ink ink) const { return colours[static_cast<std::size_t>(ink)]; }
  Colour& operator[](Ink ink) { return colours[static_cast<std::size_t>(ink)]; }
};

Style house_style(Theme theme);

/// Every pair of colours that a drawing puts on each other: text below 4.5, marks below 3 (WCAG
/// 2.2) is an error whose mend is the nearest colour that passes. `file` and `path` (a JSON
/// pointer to the colours) go into the findings.
Findings check_contrast(const Style& style, const std::string& file, const std::string& path);

}  // namespace callfit

#include <callfit/draw/style.hpp>

#include <fmt/format.h>

#include <initializer_list>
#include <utility>

namespace callfit {
namespace {

// Day game: chalk-white paper. Night game: grass under floodlight. Blue and rust stay apart for
// every common kind of colour blindness (they differ in blue-yellow and in lightness).
using Pair = std::pair<Ink, std::uint32_t>;
constexpr std::initializer_list<Pair> day = {
    {Ink::paper, 0xfbfbf6},          {Ink::strip, 0xf0f2e9},    {Ink::ink, 0x13221b},
    {Ink::quiet, 0x4e5c55},          {Ink::rule, 0xc6cfc6},     {Ink::first, 0x1a4c96},
    {Ink::second, 0xa93c0b},         {Ink::stick, 0x13221b},    {Ink::field, 0xdde9d5},
    {Ink::field_line, 0xffffff},     {Ink::masthead, 0x143d2d}, {Ink::masthead_ink, 0xfbfbf6},
    {Ink::masthead_quiet, 0xbfd4c6},
};
constexpr std::initializer_list<Pair> night = {
    {Ink::paper, 0x0e1813},          {Ink::strip, 0x16231c},    {Ink::ink, 0xf3f5ee},
    {Ink::quiet, 0xaebbb2},          {Ink::rule, 0x34463c},     {Ink::first, 0x82b4ff},
    {Ink::second, 0xff9d62},         {Ink::stick, 0xf3f5ee},    {Ink::field, 0x1a3325},
    {Ink::field_line, 0x3a5946},     {Ink::masthead, 0x1c4a36}, {Ink::masthead_ink, 0xffffff},
    {Ink::masthead_quiet, 0xc3d8ca},
};

Colour from_number(std::uint32_t rgb) {
  return {static_cast<std::uint8_t>(rgb >> 16), static_cast<std::uint8_t>((rgb >> 8) & 0xff),
          static_cast<std::uint8_t>(rgb & 0xff)};
}

struct Contact {
  Ink over, ground;
  double limit;
};

// Which ink lies on which ground in a drawing.
constexpr std::initializer_list<Contact> contacts = {
    {Ink::ink, Ink::paper, text_contrast},
    {Ink::ink, Ink::strip, text_contrast},
    {Ink::ink, Ink::field, text_contrast},
    {Ink::quiet, Ink::paper, text_contrast},
    {Ink::quiet, Ink::strip, text_contrast},
    {Ink::quiet, Ink::field, text_contrast},
    {Ink::first, Ink::paper, text_contrast},
    {Ink::first, Ink::strip, text_contrast},
    {Ink::first, Ink::field, text_contrast},
    {Ink::second, Ink::paper, text_contrast},
    {Ink::second, Ink::strip, text_contrast},
    {Ink::second, Ink::field, text_contrast},
    {Ink::stick, Ink::paper, mark_contrast},
    {Ink::stick, Ink::strip, mark_contrast},
    {Ink::stick, Ink::field, mark_contrast},
    {Ink::masthead_ink, Ink::masthead, text_contrast},
    {Ink::masthead_quiet, Ink::masthead, text_contrast},
};

std::string mend_for(Colour over, Colour ground, const Contact& contact) {
  const auto better = nearest_passing(over, ground, contact.limit);
  if (better) return fmt::format("the nearest colour that passes is {}", to_hex(*better));
  return fmt::format("make {} lighter or darker", word(contact.ground));
}

}  // namespace

Style house_style(Theme theme) {
  Style style;
  style.theme = theme;
  for (const auto& [ink, rgb] : theme == Theme::light ? day : night) style[ink] = from_number(rgb);
  // Noto is wide: where another font stands in, lines grow shorter, not longer.
  style.headline_family = "Noto Serif, Georgia, Times New Roman, serif";
  style.text_family = "Noto Sans, Open Sans, Helvetica, Arial, sans-serif";
  return style;
}

Findings check_contrast(const Style& style, const std::string& file, const std::string& path) {
  Findings findings;
  for (const Contact& contact : contacts) {
    const Colour over = style[contact.over], ground = style[contact.ground];
    const double reached = contrast(over, ground);
    if (reached >= contact.limit) continue;
    findings.push_back({{file, 0, fmt::format("{}/{}", path, word(contact.over))},
                        fmt::format("{} on {} {} has contrast {:.2f}, below {:.1f}", to_hex(over),
                                    word(contact.ground), to_hex(ground), reached, contact.limit),
                        mend_for(over, ground, contact)});
  }
  return findings;
}

}  // namespace callfit

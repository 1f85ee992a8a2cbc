// sRGB colours and how well they can be told apart (WCAG 2.2).
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace callfit {

struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;

  bool operator==(const Colour&) const = default;
};

inline constexpr double text_contrast = 4.5;  ///< WCAG 2.2 SC 1.4.3
inline constexpr double mark_contrast = 3.0;  ///< WCAG 2.2 SC 1.4.11

std::optional<Colour> parse_colour(std::string_view text);  ///< "#rrggbb"
std::string to_hex(Colour colour);                          ///< "#rrggbb"

/// In [0, 1]; WCAG 2.2, definition of relative luminance.
double relative_luminance(Colour colour);

/// In [1, 21]; (L1 + 0.05) / (L2 + 0.05) with the lighter one first.
double contrast(Colour a, Colour b);

/// Straight mix in sRGB: `share` of b in [0, 1].
Colour mix(Colour a, Colour b, double share);

/// How different two colours look: distance in Oklab (Ottosson 2020), 0 to about 1.
double oklab_distance(Colour a, Colour b);

/// The colour nearest to `wanted` (by Oklab, going straight to black or to white) with at least
/// `limit` contrast on `ground`; nullopt when neither black nor white reaches the limit.
std::optional<Colour> nearest_passing(Colour wanted, Colour ground, double limit);

/// Whichever of `first`, `second`, black and white comes first with enough contrast for text.
Colour readable_on(Colour ground, Colour first, Colour second);

}  // namespace callfit

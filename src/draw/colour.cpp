#include <callfit/draw/colour.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace callfit {
namespace {

// WCAG 2.2, "relative luminance": the sRGB transfer curve (IEC 61966-2-1).
double linear(std::uint8_t channel) {
  const double c = channel / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

std::uint8_t byte_of(double value) {
  return static_cast<std::uint8_t>(std::lround(std::clamp(value, 0.0, 255.0)));
}

// Ottosson, "A perceptual color space for image processing" (2020), matrices M1 and M2.
std::array<double, 3> oklab(Colour colour) {
  const double r = linear(colour.red), g = linear(colour.green), b = linear(colour.blue);
  const double l = std::cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const double m = std::cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const double s = std::cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return {0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
          1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
          0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s};
}

constexpr Colour black{0, 0, 0};
constexpr Colour white{255, 255, 255};

// The first step from `wanted` straight to `end` that passes; steps of 1/255, so that every
// colour on the way is tried.
std::optional<Colour> first_passing(Colour wanted, Colour end, Colour ground, double limit) {
  for (int step = 0; step <= 255; ++step) {
    const Colour tried = mix(wanted, end, step / 255.0);
    if (contrast(tried, ground) >= limit) return tried;
  }
  return std::nullopt;
}

}  // namespace

std::optional<Colour> parse_colour(std::string_view text) {
  if (text.size() != 7 || text[0] != '#') return std::nullopt;
  std::array<std::uint8_t, 3> channels{};
  for (std::size_t i = 0; i < 3; ++i) {
    const char* from = text.data() + 1 + 2 * i;
    const auto [end, error] = std::from_chars(from, from + 2, channels[i], 16);
    if (error != std::errc{} || end != from + 2) return std::nullopt;
  }
  return Colour{channels[0], channels[1], channels[2]};
}

std::string to_hex(Colour colour) {
  return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue);
}

double relative_luminance(Colour colour) {
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

double contrast(Colour a, Colour b) {
  const double la = relative_luminance(a), lb = relative_luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

Colour mix(Colour a, Colour b, double share) {
  const auto blend = [share](std::uint8_t from, std::uint8_t to) {
    return byte_of(from + share * (to - from));
  };
  return {blend(a.red, b.red), blend(a.green, b.green), blend(a.blue, b.blue)};
}

double oklab_distance(Colour a, Colour b) {
  const auto p = oklab(a), q = oklab(b);
  return std::hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

std::optional<Colour> nearest_passing(Colour wanted, Colour ground, double limit) {
  const auto darker = first_passing(wanted, black, ground, limit);
  const auto lighter = first_passing(wanted, white, ground, limit);
  if (!darker) return lighter;
  if (!lighter) return darker;
  return oklab_distance(wanted, *darker) <= oklab_distance(wanted, *lighter) ? darker : lighter;
}

Colour readable_on(Colour ground, Colour first, Colour second) {
  for (const Colour tried : {first, second, black})
    if (contrast(tried, ground) >= text_contrast) return tried;
  return white;
}

}  // namespace callfit

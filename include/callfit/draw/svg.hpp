// A figure as an SVG document: real text, title and description, the same bytes every time.
#pragma once

#include <callfit/draw/figure.hpp>

#include <string>

namespace callfit {

std::string to_svg(const Figure& figure);

/// A number as SVG writes it here: at most two decimals, no exponent, no negative zero. NaN and
/// infinities throw std::invalid_argument.
std::string svg_number(double value);

/// Standard base 64 (RFC 4648 section 4).
std::string base64(const std::string& bytes);

}  // namespace callfit

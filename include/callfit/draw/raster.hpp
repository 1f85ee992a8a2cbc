// An SVG document as PNG or PDF bytes, through librsvg and cairo.
#pragma once

#include <string>

namespace callfit {

/// Throws std::runtime_error when librsvg cannot read the document.
std::string to_png(const std::string& svg, int width, int height);

/// One page of width x height points. Carries no date, so that equal drawings are equal files.
std::string to_pdf(const std::string& svg, int width, int height);

}  // namespace callfit

// A PNG file's pixels, for tests that look at what was drawn.
#pragma once

#include <callfit/draw/colour.hpp>

#include <cairo.h>

#include <cstring>
#include <stdexcept>
#include <string>
#include <vector>

namespace callfit {

struct Pixels {
  int width = 0, height = 0;
  std::vector<Colour> colours;

  Colour at(int x, int y) const {
    return colours[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                   static_cast<std::size_t>(x)];
  }
};

namespace detail {

struct PngSource {
  const std::string* bytes;
  std::size_t at = 0;
};

inline cairo_status_t read_png(void* from, unsigned char* to, unsigned int count) {
  auto* source = static_cast<PngSource*>(from);
  if (source->at + count > source->bytes->size()) return CAIRO_STATUS_READ_ERROR;
  std::memcpy(to, source->bytes->data() + source->at, count);
  source->at += count;
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace detail

inline Pixels decode_png(const std::string& bytes) {
  detail::PngSource source{&bytes};
  cairo_surface_t* surface = cairo_image_surface_create_from_png_stream(detail::read_png, &source);
  if (cairo_surface_status(surface) != CAIRO_STATUS_SUCCESS) {
    cairo_surface_destroy(surface);
    throw std::runtime_error("not a PNG file");
  }
  Pixels pixels{
      cairo_image_surface_get_width(surface), cairo_image_surface_get_height(surface), {}};
  const unsigned char* data = cairo_image_surface_get_data(surface);
  const int stride = cairo_image_surface_get_stride(surface);
  for (int y = 0; y < pixels.height; ++y)
    for (int x = 0; x < pixels.width; ++x) {
      const unsigned char* p = data + y * stride + 4 * x;  // blue, green, red, unused
      pixels.colours.push_back({p[2], p[1], p[0]});
    }
  cairo_surface_destroy(surface);
  return pixels;
}

}  // namespace callfit

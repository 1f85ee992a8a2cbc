#include <callfit/draw/image.hpp>
#include <draw/held.hpp>

#include <cstdint>
#include <cstring>
#include <stdexcept>
#include <string_view>

namespace callfit {
namespace {

[[noreturn]] void refuse(const std::string& what) { throw std::invalid_argument(what); }

constexpr std::string_view png_signature = "\x89PNG\r\n\x1a\n";

std::uint32_t big_endian(std::string_view bytes) {
  std::uint32_t value = 0;
  for (const char byte : bytes.substr(0, 4)) value = value << 8U | static_cast<unsigned char>(byte);
  return value;
}

/// Width and height stand first (PNG specification, 11.2.2).
void check_pixels(std::string_view bytes) {
  constexpr std::size_t width_at = 16, height_at = 20, header_end = 24;
  if (bytes.size() < header_end || bytes.substr(12, 4) != "IHDR") refuse("is a broken PNG");
  for (const std::size_t at : {width_at, height_at})
    if (big_endian(bytes.substr(at)) > static_cast<std::uint32_t>(widest_image))
      refuse("is larger than " + std::to_string(widest_image) + " pixels");
}

/// Bytes for cairo's PNG reader, block by block.
cairo_status_t take(void* from, unsigned char* to, unsigned int count) {
  auto& rest = *static_cast<std::string_view*>(from);
  if (rest.size() < count) return CAIRO_STATUS_READ_ERROR;
  std::memcpy(to, rest.data(), count);
  rest.remove_prefix(count);
  return CAIRO_STATUS_SUCCESS;
}

void check_png(std::string_view bytes) {
  check_pixels(bytes);
  std::string_view rest = bytes;
  const Held<cairo_surface_t> surface{cairo_image_surface_create_from_png_stream(take, &rest)};
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) refuse("is a broken PNG");
}

/// Once on a small canvas.
void check_svg(const std::string& bytes) {
  for (const std::string_view hidden : {"<image", ":image", "feImage", "<!ENTITY"})
    if (bytes.find(hidden) != std::string::npos)
      refuse("holds " + std::string(hidden.substr(1)) + ", which is not drawn");
  GError* error = nullptr;
  const Held<RsvgHandle> handle{rsvg_handle_new_from_data(
      reinterpret_cast<const guint8*>(bytes.data()), bytes.size(), &error)};
  constexpr int side = 64;
  const Held<cairo_surface_t> surface{cairo_image_surface_create(CAIRO_FORMAT_ARGB32, side, side)};
  const Held<cairo_t> context{cairo_create(surface.get())};
  const RsvgRectangle viewport{0, 0, side, side};
  if (!handle || rsvg_handle_render_document(handle.get(), context.get(), &viewport, &error) == 0) {
    const Held<GError> told{error};
    refuse("is no SVG that can be drawn: " + std::string(told ? told->message : "unknown error"));
  }
}

bool is_svg(std::string_view bytes) {
  const std::size_t first = bytes.find_first_not_of(" \t\r\n\xef\xbb\xbf");
  return first != std::string_view::npos && bytes[first] == '<';
}

}  // namespace

std::string image_type(const std::string& bytes) {
  if (bytes.size() > longest_image)
    refuse("is longer than " + std::to_string(longest_image >> 20U) + " MiB");
  if (bytes.starts_with(png_signature)) {
    check_png(bytes);
    return "image/png";
  }
  if (!is_svg(bytes)) refuse("is neither PNG nor SVG");
  check_svg(bytes);
  return "image/svg+xml";
}

}  // namespace callfit

#include <callfit/draw/raster.hpp>
#include <draw/held.hpp>

#include <cairo-pdf.h>

#include <stdexcept>

namespace callfit {
namespace {

[[noreturn]] void fail(GError* error) {
  const std::string text = error != nullptr ? error->message : "unknown error";
  g_clear_error(&error);
  throw std::runtime_error("the drawing cannot be rendered: " + text);
}

cairo_status_t append(void* to, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

void check(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) throw std::runtime_error(cairo_status_to_string(status));
}

void render(const std::string& svg, cairo_surface_t* surface, int width, int height) {
  GError* error = nullptr;
  const Held<RsvgHandle> handle{
      rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()), svg.size(), &error)};
  if (!handle) fail(error);
  const Held<cairo_t> context{cairo_create(surface)};
  const RsvgRectangle viewport{0, 0, static_cast<double>(width), static_cast<double>(height)};
  if (rsvg_handle_render_document(handle.get(), context.get(), &viewport, &error) == 0) fail(error);
  check(cairo_status(context.get()));
}

}  // namespace

std::string to_png(const std::string& svg, int width, int height) {
  const Held<cairo_surface_t> surface{
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height)};
  check(cairo_surface_status(surface.get()));
  render(svg, surface.get(), width, height);
  std::string bytes;
  check(cairo_surface_write_to_png_stream(surface.get(), append, &bytes));
  return bytes;
}

std::string to_pdf(const std::string& svg, int width, int height) {
  std::string bytes;
  {
    const Held<cairo_surface_t> surface{
        cairo_pdf_surface_create_for_stream(append, &bytes, width, height)};
    check(cairo_surface_status(surface.get()));
    // Cairo stamps the time of day otherwise.
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE,
                                   "2000-01-01T00:00:00Z");
    render(svg, surface.get(), width, height);
    cairo_surface_finish(surface.get());
    check(cairo_surface_status(surface.get()));
  }
  return bytes;
}

}  // namespace callfit

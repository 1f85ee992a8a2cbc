// Objects of the drawing libraries, freed at the end of their scope.
#pragma once

#include <cairo.h>
#include <librsvg/rsvg.h>

#include <memory>

namespace callfit {

struct Free {
  void operator()(RsvgHandle* handle) const { g_object_unref(handle); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* context) const { cairo_destroy(context); }
  void operator()(GError* error) const { g_error_free(error); }
};
template <class T>
using Held = std::unique_ptr<T, Free>;

}  // namespace callfit

// An SVG file read back: its texts with measured boxes, its shapes as polygons in paint order, and
// what colour lies beneath a point. Everything is computed from the file, not from the program
// that wrote it.
#pragma once

#include <callfit/draw/figure.hpp>
#include <callfit/draw/text_ruler.hpp>
#include <callfit/graphic/pictures.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit {

struct DrawnShape {
  std::vector<Point> outline;  ///< flattened; a line has two points
  bool closed = true;
  std::optional<Colour> fill, stroke;
  bool mark = false;
  std::optional<Box> clip;

  bool covers(Point point) const;  ///< filled there, and not clipped away
};

struct DrawnText {
  TextShape shape;
  Box box;                  ///< of its ink
  std::size_t painted = 0;  ///< how many shapes came before it
};

struct Drawn {
  int width = 0, height = 0;
  std::string title, description;
  std::vector<DrawnShape> shapes;
  std::vector<DrawnText> texts;

  /// The colour beneath a point, of the first `painted` shapes.
  Colour ground(Point point, std::size_t painted) const;
  bool says(const std::string& words) const;  ///< in one of its texts
  /// All its texts in document order, one a line; those smaller than `least` pixels left out.
  std::string all_text(double least = 0) const;
};

/// Throws std::runtime_error when it is not well-formed SVG with title, desc and role.
Drawn read_svg(const std::string& svg, const TextRuler& ruler);

inline constexpr Frame every_frame[] = {Frame::wide, Frame::tall, Frame::story};

/// A panel alone on a light page.
Drawn drawn_of(const Panel& panel, Frame frame = Frame::wide);

/// What is wrong with the texts: outside the frame, or on each other. Empty: nothing.
std::vector<std::string> misplaced_texts(const Drawn& drawn);

/// Texts below 4.5:1 and marks below 3:1 on what lies beneath them (WCAG 2.2 SC 1.4.3, 1.4.11).
std::vector<std::string> too_faint(const Drawn& drawn);

}  // namespace callfit

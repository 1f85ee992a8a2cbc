// A drawing as a value: a tree of shapes that knows nothing of what it shows. Paint order is
// document order.
#pragma once

#include <callfit/draw/colour.hpp>
#include <callfit/draw/geometry.hpp>

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace callfit {

struct Stroke {
  Colour colour;
  double width = 1;          ///< pixels
  std::vector<double> dash;  ///< pixels on, off, ...; empty: solid
};

/// What a shape is for: a mark carries data and must stand out from its ground; decor need not.
enum class Role { decor, mark };

struct Paint {
  std::optional<Colour> fill;
  std::optional<Stroke> stroke;
  Role role = Role::decor;
};

struct RectShape {
  Box box;
  double radius = 0;
  Paint paint;
};

struct LineShape {
  Point from, to;
  Paint paint;
};

struct CircleShape {
  Point centre;
  double radius = 1;
  Paint paint;
};

/// SVG path commands with absolute coordinates: M and L take 2 numbers, C takes 6, Z none.
struct PathStep {
  char command = 'M';
  std::vector<double> numbers;
};

struct PathShape {
  std::vector<PathStep> steps;
  Paint paint;
};

enum class Anchor { start, middle, end };

struct Font {
  std::string family;  ///< comma-separated, first found wins
  double size = 16;    ///< pixels
  bool bold = false;
  bool italic = false;
};

/// One line of text; `at` lies on its baseline.
struct TextShape {
  Point at;
  std::string text;  ///< UTF-8
  Font font;
  Colour colour;
  Anchor anchor = Anchor::start;
};

struct ImageShape {
  Box box;  ///< the picture is fitted into it whole, centred
  std::string media_type;
  std::string bytes;
};

struct Node;

struct Group {
  std::string title;        ///< shown by viewers when pointed at; empty: none
  std::optional<Box> clip;  ///< nothing is drawn outside
  std::vector<Node> nodes;
  std::string id = {};  ///< of what it shows, unique in the figure; empty: none
  double unit = 0;      ///< pixels of one unit of what its place shows, across; 0: none
};

struct Node {
  std::variant<RectShape, LineShape, CircleShape, PathShape, TextShape, ImageShape, Group> shape;
};

struct Figure {
  int width = 0;  ///< pixels
  int height = 0;
  Colour ground;            ///< fills the whole frame
  std::string title;        ///< for readers who cannot see it: what it is
  std::string description;  ///< and what it says
  Group content;
};

}  // namespace callfit

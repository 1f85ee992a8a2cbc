#include "drawn.hpp"
#include "samples.hpp"

#include <callfit/draw/svg.hpp>

#include <fmt/format.h>
#include <pugixml.hpp>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>

namespace callfit {
namespace {

using Element = pugi::xml_node;

double number(Element node, const char* name) { return node.attribute(name).as_double(); }

std::optional<Colour> colour(Element node, const char* name) {
  return parse_colour(node.attribute(name).value());
}

std::vector<Point> rectangle(const Box& b) {
  return {{b.x, b.y}, {b.right(), b.y}, {b.right(), b.bottom()}, {b.x, b.bottom()}};
}

Box box_attributes(Element node) {
  return {number(node, "x"), number(node, "y"), number(node, "width"), number(node, "height")};
}

std::vector<Point> circle(Element node) {
  std::vector<Point> points;
  constexpr int corners = 24;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * 3.14159265358979 * i / corners;
    points.push_back({number(node, "cx") + number(node, "r") * std::cos(angle),
                      number(node, "cy") + number(node, "r") * std::sin(angle)});
  }
  return points;
}

Point bezier(Point a, Point b, Point c, Point d, double t) {
  const double s = 1 - t;
  const auto at = [&](double p, double q, double r, double u) {
    return s * s * s * p + 3 * s * s * t * q + 3 * s * t * t * r + t * t * t * u;
  };
  return {at(a.x, b.x, c.x, d.x), at(a.y, b.y, c.y, d.y)};
}

std::vector<Point> path_points(const std::string& data, bool& closed) {
  std::vector<Point> points;
  std::string spaced;
  for (const char c : data)
    spaced +=
        c == 'M' || c == 'L' || c == 'C' || c == 'Z' ? std::string{' ', c, ' '} : std::string{c};
  std::istringstream in(spaced);
  closed = false;
  for (std::string command; in >> command;) {
    if (command == "Z") {
      closed = true;
      continue;
    }
    Point a, b, c;
    in >> a.x >> a.y;
    if (command != "C") {
      points.push_back(a);
      continue;
    }
    in >> b.x >> b.y >> c.x >> c.y;
    const Point from = points.back();
    for (int i = 1; i <= 10; ++i) points.push_back(bezier(from, a, b, c, i / 10.0));
  }
  return points;
}

std::optional<Box> both(const std::optional<Box>& a, const std::optional<Box>& b) {
  if (!a || !b) return a ? a : b;
  const double x = std::max(a->x, b->x), y = std::max(a->y, b->y);
  return Box{x, y, std::min(a->right(), b->right()) - x, std::min(a->bottom(), b->bottom()) - y};
}

class Reader {
 public:
  Reader(Drawn& drawn, const TextRuler& ruler) : drawn_(drawn), ruler_(ruler) {}

  void read(Element parent, const std::optional<Box>& clip) {
    std::optional<Box> next;
    for (const Element node : parent.children()) {
      const std::string name = node.name();
      if (name == "clipPath") next = box_attributes(node.child("rect"));
      if (name == "g") read(node, node.attribute("clip-path") ? both(clip, next) : clip);
      if (name == "text") add_text(node);
      if (name == "rect") add(node, rectangle(box_attributes(node)), true, clip);
      if (name == "circle") add(node, circle(node), true, clip);
      if (name == "line")
        add(node,
            {{number(node, "x1"), number(node, "y1")}, {number(node, "x2"), number(node, "y2")}},
            false, clip);
      if (name == "path") {
        bool closed = false;
        const auto points = path_points(node.attribute("d").value(), closed);
        add(node, points, closed, clip);
      }
    }
  }

 private:
  void add(Element node, std::vector<Point> outline, bool closed, const std::optional<Box>& clip) {
    drawn_.shapes.push_back({std::move(outline), closed, colour(node, "fill"),
                             colour(node, "stroke"),
                             std::string(node.attribute("class").value()) == "mark", clip});
  }

  void add_text(Element node) {
    const std::string anchor = node.attribute("text-anchor").value();
    TextShape shape{{number(node, "x"), number(node, "y")},
                    node.text().get(),
                    {node.attribute("font-family").value(), number(node, "font-size"),
                     std::string(node.attribute("font-weight").value()) == "700", false},
                    colour(node, "fill").value(),
                    anchor == "middle" ? Anchor::middle
                    : anchor == "end"  ? Anchor::end
                                       : Anchor::start};
    const Box box = box_of(shape, ruler_);
    drawn_.texts.push_back({std::move(shape), box, drawn_.shapes.size()});
  }

  Drawn& drawn_;
  const TextRuler& ruler_;
};

Point middle_of(const DrawnShape& shape) {
  double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
  for (const Point& p : shape.outline) {
    left = std::min(left, p.x);
    right = std::max(right, p.x);
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
  }
  return {(left + right) / 2, (top + bottom) / 2};
}

}  // namespace

// Crossing number (Shimrat 1962).
bool DrawnShape::covers(Point point) const {
  if (!fill || outline.size() < 3) return false;
  if (clip && !clip->contains({point.x, point.y, 0, 0})) return false;
  bool inside = false;
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
    const Point &a = outline[i], &b = outline[j];
    if ((a.y > point.y) != (b.y > point.y) &&
        point.x < (b.x - a.x) * (point.y - a.y) / (b.y - a.y) + a.x)
      inside = !inside;
  }
  return inside;
}

Colour Drawn::ground(Point point, std::size_t painted) const {
  for (std::size_t i = painted; i-- > 0;)
    if (shapes[i].covers(point)) return *shapes[i].fill;
  return {255, 255, 255};
}

bool Drawn::says(const std::string& words) const {
  return std::any_of(texts.begin(), texts.end(), [&](const DrawnText& text) {
    return text.shape.text.find(words) != std::string::npos;
  });
}

std::string Drawn::all_text(double least) const {
  std::string all;
  for (const DrawnText& text : texts)
    if (text.shape.font.size >= least) all += text.shape.text + "\n";
  return all;
}

Drawn read_svg(const std::string& svg, const TextRuler& ruler) {
  pugi::xml_document document;
  const auto result =
      document.load_string(svg.c_str(), pugi::parse_default | pugi::parse_ws_pcdata_single);
  if (!result) throw std::runtime_error(result.description());
  const Element root = document.child("svg");
  Drawn drawn;
  drawn.width = root.attribute("width").as_int();
  drawn.height = root.attribute("height").as_int();
  drawn.title = root.child("title").text().get();
  drawn.description = root.child("desc").text().get();
  if (std::string(root.attribute("role").value()) != "img" || drawn.title.empty() ||
      drawn.description.empty())
    throw std::runtime_error("role, title or desc is missing");
  Reader(drawn, ruler).read(root, std::nullopt);
  return drawn;
}

Drawn drawn_of(const Panel& panel, Frame frame) {
  const TextRuler ruler;
  return read_svg(to_svg(figure(panel, samples::dress(frame, Theme::light), ruler)), ruler);
}

std::vector<std::string> misplaced_texts(const Drawn& drawn) {
  std::vector<std::string> wrong;
  const Box frame{0, 0, static_cast<double>(drawn.width), static_cast<double>(drawn.height)};
  for (std::size_t i = 0; i < drawn.texts.size(); ++i) {
    const DrawnText& text = drawn.texts[i];
    if (!frame.contains(text.box)) wrong.push_back("outside the frame: " + text.shape.text);
    for (std::size_t j = 0; j < i; ++j)
      if (text.box.overlaps(drawn.texts[j].box, 0.5))
        wrong.push_back(text.shape.text + " lies on " + drawn.texts[j].shape.text);
  }
  return wrong;
}

std::vector<std::string> too_faint(const Drawn& drawn) {
  std::vector<std::string> faint;
  for (const DrawnText& text : drawn.texts)
    for (const double share : {0.02, 0.25, 0.5, 0.75, 0.98}) {
      const Point at{text.box.x + share * text.box.width, text.box.middle_y()};
      const Colour ground = drawn.ground(at, text.painted);
      const double reached = contrast(text.shape.colour, ground);
      if (reached < text_contrast)
        faint.push_back(
            fmt::format("text {} on {}: {:.2f}", text.shape.text, to_hex(ground), reached));
    }
  for (std::size_t i = 0; i < drawn.shapes.size(); ++i) {
    const DrawnShape& shape = drawn.shapes[i];
    if (!shape.mark) continue;
    std::vector<Point> points{middle_of(shape)};
    if (!shape.fill) points = shape.outline;
    for (const Point& at : points) {
      const Colour ground = drawn.ground(at, i);
      const double reached = std::max(shape.fill ? contrast(*shape.fill, ground) : 1.0,
                                      shape.stroke ? contrast(*shape.stroke, ground) : 1.0);
      if (reached < mark_contrast)
        faint.push_back(fmt::format("mark {} at {:.0f},{:.0f} on {}: {:.2f}", i, at.x, at.y,
                                    to_hex(ground), reached));
    }
  }
  return faint;
}

}  // namespace callfit

#include <callfit/draw/geometry.hpp>

#include <algorithm>

namespace callfit {

Box Box::take_top(double size, double gap) {
  const double taken = std::clamp(size, 0.0, height);
  const Box strip{x, y, width, taken};
  const double cut = std::min(taken + gap, height);
  y += cut;
  height -= cut;
  return strip;
}

Box Box::take_bottom(double size, double gap) {
  const double taken = std::clamp(size, 0.0, height);
  const Box strip{x, bottom() - taken, width, taken};
  height -= std::min(taken + gap, height);
  return strip;
}

Box Box::take_left(double size, double gap) {
  const double taken = std::clamp(size, 0.0, width);
  const Box strip{x, y, taken, height};
  const double cut = std::min(taken + gap, width);
  x += cut;
  width -= cut;
  return strip;
}

Box Box::take_right(double size, double gap) {
  const double taken = std::clamp(size, 0.0, width);
  const Box strip{right() - taken, y, taken, height};
  width -= std::min(taken + gap, width);
  return strip;
}

bool Box::contains(const Box& other, double slack) const {
  return other.x >= x - slack && other.y >= y - slack && other.right() <= right() + slack &&
         other.bottom() <= bottom() + slack;
}

bool Box::overlaps(const Box& other, double slack) const {
  return other.x < right() - slack && x < other.right() - slack && other.y < bottom() - slack &&
         y < other.bottom() - slack;
}

std::vector<Box> columns(const Box& box, std::size_t count, double gap) {
  std::vector<Box> parts;
  const auto n = static_cast<double>(count);
  const double width = (box.width - gap * (n - 1)) / n;
  for (std::size_t i = 0; i < count; ++i)
    parts.push_back({box.x + static_cast<double>(i) * (width + gap), box.y, width, box.height});
  return parts;
}

std::vector<Box> rows(const Box& box, std::size_t count, double gap) {
  std::vector<Box> parts;
  const auto n = static_cast<double>(count);
  const double height = (box.height - gap * (n - 1)) / n;
  for (std::size_t i = 0; i < count; ++i)
    parts.push_back({box.x, box.y + static_cast<double>(i) * (height + gap), box.width, height});
  return parts;
}

}  // namespace callfit

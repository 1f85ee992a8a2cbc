#include <callfit/draw/canvas.hpp>

#include <algorithm>

namespace callfit {

void Canvas::add(Node node) { group_->nodes.push_back(std::move(node)); }

void Canvas::fill(const Box& box, Colour colour, Role role) {
  add({RectShape{box, 0, {colour, std::nullopt, role}}});
}

void Canvas::line(Point from, Point to, Ink ink, double width, Role role) {
  add({LineShape{from, to, {std::nullopt, Stroke{colour(ink), width, {}}, role}}});
}

void Canvas::dashed(Point from, Point to, Ink ink, double width) {
  add({LineShape{
      from, to, {std::nullopt, Stroke{colour(ink), width, {3 * width, 2 * width}}, Role::decor}}});
}

void Canvas::path(std::vector<PathStep> steps, const Paint& paint) {
  add({PathShape{std::move(steps), paint}});
}

void Canvas::dot(Point centre, double radius, Ink ink) {
  add({CircleShape{centre, radius, {colour(ink), std::nullopt, Role::mark}}});
}

Font Canvas::font_of(const Words& words) const {
  return {words.serif ? style_->headline_family : style_->text_family, words.size, words.bold,
          false};
}

double Canvas::width_of(const Words& words) const {
  return ruler_->measure(words.text, font_of(words)).width;
}

Words Canvas::fitted(const Words& words, double width, std::size_t max_lines,
                     double smallest) const {
  constexpr double step = 0.97;
  Words out = words;
  const auto is_cut = [&] {
    return ruler_->wrap(out.text, font_of(out), width, max_lines + 1).size() > max_lines;
  };
  while (out.size * step >= smallest * words.size && is_cut()) out.size *= step;
  return out;
}

double Canvas::write(const Words& words, Point baseline, double width) {
  const Font font = font_of(fitted(words, width, 1));
  const std::string text = ruler_->shorten(words.text, font, width);
  if (text.empty()) return 0;
  add({TextShape{baseline, text, font, colour(words.ink), words.anchor}});
  return ruler_->measure(text, font).width;
}

void Canvas::write_in(const Words& words, const Box& box) {
  const double x = words.anchor == Anchor::start    ? box.x
                   : words.anchor == Anchor::middle ? box.middle_x()
                                                    : box.right();
  // Centred on the height of capitals, about 0.71 of the size in the fonts used.
  const double baseline = box.middle_y() + 0.355 * words.size;
  write(words, {x, baseline}, box.width);
}

double Canvas::write_block(const Words& words, const Box& box, std::size_t max_lines) {
  const Words small = fitted(words, box.width, max_lines);
  const double step = line_height(small.size);
  const double x = words.anchor == Anchor::start    ? box.x
                   : words.anchor == Anchor::middle ? box.middle_x()
                                                    : box.right();
  double top = box.y;
  for (const std::string& line : ruler_->wrap(small.text, font_of(small), box.width, max_lines)) {
    Words part = small;
    part.text = line;
    write(part, {x, top + 0.98 * small.size}, box.width + 1);
    top += step;
  }
  return top - box.y;
}

double Canvas::block_height(const Words& words, double width, std::size_t max_lines) const {
  const auto lines = ruler_->wrap(words.text, font_of(words), width, max_lines).size();
  return static_cast<double>(lines) * line_height(words.size);
}

std::vector<double> Canvas::fitting_ticks(
    const LinearScale& scale, double size, int most,
    const std::function<std::string(double, int)>& text) const {
  for (int wanted = most; wanted > 1; --wanted) {
    auto ticks = round_ticks(scale.low(), scale.high(), wanted);
    const int decimals = decimals_of(ticks);
    bool fits = true;
    double last = -1e9;
    for (const double tick : ticks) {
      const double half = width_of({text(tick, decimals), size}) / 2;
      fits = fits && scale(tick) - half > last + 0.4 * size;
      last = scale(tick) + half;
    }
    if (fits) return ticks;
  }
  return {};
}

void Canvas::grouped(const std::string& title, const std::function<void(Canvas&)>& draw) {
  Group group;
  group.title = title;
  Canvas inner(group, *style_, *ruler_, sizes_);
  draw(inner);
  add({std::move(group)});
}

void Canvas::marked(const std::string& id, double unit, const std::function<void(Canvas&)>& draw) {
  if (id.empty()) {
    draw(*this);
    return;
  }
  Group group;
  group.id = id;
  group.unit = unit;
  Canvas inner(group, *style_, *ruler_, sizes_);
  draw(inner);
  add({std::move(group)});
}

}  // namespace callfit

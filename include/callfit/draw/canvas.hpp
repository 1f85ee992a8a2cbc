// A pen over a group: shapes by meaning (which ink, which size) instead of by raw attributes.
#pragma once

#include <callfit/draw/figure.hpp>
#include <callfit/draw/scale.hpp>
#include <callfit/draw/style.hpp>
#include <callfit/draw/text_ruler.hpp>

#include <functional>
#include <string>
#include <vector>

namespace callfit {

/// Text sizes in pixels; a frame seen on a phone needs larger ones.
struct TextScale {
  double foot = 19;
  double small = 22;
  double body = 26;
  double large = 34;
  double huge = 84;
  double headline = 64;
};

struct Words {
  std::string text;
  double size = 26;
  Ink ink = Ink::ink;
  bool bold = false;
  Anchor anchor = Anchor::start;
  bool serif = false;
};

class Canvas {
 public:
  Canvas(Group& group, const Style& style, const TextRuler& ruler, const TextScale& sizes)
      : group_(&group), style_(&style), ruler_(&ruler), sizes_(sizes) {}

  const Style& style() const { return *style_; }
  const TextRuler& ruler() const { return *ruler_; }
  const TextScale& sizes() const { return sizes_; }
  Colour colour(Ink ink) const { return (*style_)[ink]; }

  void add(Node node);
  void fill(const Box& box, Colour colour, Role role = Role::decor);
  void line(Point from, Point to, Ink ink, double width, Role role = Role::decor);
  void dashed(Point from, Point to, Ink ink, double width);
  void path(std::vector<PathStep> steps, const Paint& paint);
  void dot(Point centre, double radius, Ink ink);

  Font font_of(const Words& words) const;
  double width_of(const Words& words) const;
  /// Lines of a headline stand closer.
  double line_height(double size) const {
    return size * (size >= 0.8 * sizes_.headline ? 1.18 : 1.28);
  }

  /// As small as `max_lines` lines of `width` need, to `smallest` of the size at most: smaller
  /// letters before fewer.
  Words fitted(const Words& words, double width, std::size_t max_lines,
               double smallest = 0.8) const;

  /// One line within `width`; shrinks as fitted() does before it is shortened. `baseline` is where
  /// it stands. Returns the width it took.
  double write(const Words& words, Point baseline, double width);
  /// One line in the middle of `box`'s height, at the side its anchor names.
  void write_in(const Words& words, const Box& box);
  /// Up to `max_lines` lines from the top of `box`, which shrink likewise; returns the height used.
  double write_block(const Words& words, const Box& box, std::size_t max_lines);
  /// The height that write_block would use without shrinking.
  double block_height(const Words& words, double width, std::size_t max_lines) const;

  /// As many round ticks as find room for their labels beside each other, at most `most`.
  std::vector<double> fitting_ticks(const LinearScale& scale, double size, int most,
                                    const std::function<std::string(double, int)>& text) const;

  /// What `draw` draws becomes one group with a title.
  void grouped(const std::string& title, const std::function<void(Canvas&)>& draw);
  /// What `draw` draws becomes one group that can be found by its id (Group::unit); without an id,
  /// no group.
  void marked(const std::string& id, double unit, const std::function<void(Canvas&)>& draw);

 private:
  Group* group_;
  const Style* style_;
  const TextRuler* ruler_;
  TextScale sizes_;
};

}  // namespace callfit

#include <callfit/draw/text_ruler.hpp>

#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <unordered_map>

namespace callfit {
namespace {

struct Unref {
  void operator()(gpointer object) const { g_object_unref(object); }
};
template <class T>
using Owned = std::unique_ptr<T, Unref>;

constexpr std::size_t most_remembered = 20'000;  // texts

double pixels(int pango_units) { return static_cast<double>(pango_units) / PANGO_SCALE; }

void describe(PangoLayout* layout, const std::string& text, const Font& font) {
  PangoFontDescription* description = pango_font_description_new();
  pango_font_description_set_family(description, font.family.c_str());
  pango_font_description_set_absolute_size(description, font.size * PANGO_SCALE);
  pango_font_description_set_weight(description,
                                    font.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_style(description,
                                   font.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
  pango_layout_set_font_description(layout, description);
  pango_font_description_free(description);
  pango_layout_set_text(layout, text.c_str(), static_cast<int>(text.size()));
}

// Byte offsets at which text may be cut, by the Unicode rules for lines (UAX 14) or for what a
// reader takes as one character (UAX 29); whatever the font.
struct Cuts {
  std::vector<std::size_t> lines, characters;
};

Cuts cuts_of(PangoLayout* layout, const std::string& text) {
  int count = 0;
  const PangoLogAttr* attributes = pango_layout_get_log_attrs_readonly(layout, &count);
  Cuts cuts;
  const char* at = text.c_str();
  for (int i = 0; i < count; ++i) {
    const auto offset = static_cast<std::size_t>(at - text.c_str());
    if (attributes[i].is_line_break != 0U || i == count - 1) cuts.lines.push_back(offset);
    if (attributes[i].is_cursor_position != 0U) cuts.characters.push_back(offset);
    if (i + 1 < count) at = g_utf8_next_char(at);
  }
  return cuts;
}

std::string trimmed(const std::string& text) {
  const auto last = text.find_last_not_of(' ');
  return last == std::string::npos ? std::string{} : text.substr(0, last + 1);
}

}  // namespace

struct TextRuler::Pango {
  Owned<PangoFontMap> fonts{pango_cairo_font_map_new()};
  Owned<PangoContext> context{pango_font_map_create_context(fonts.get())};
  Owned<PangoLayout> layout;
  // Wrapping and balancing ask for the same words many times, and so does a picture that follows a
  // hand; shaping is what costs.
  std::unordered_map<std::string, TextSize> known;
  std::unordered_map<std::string, Cuts> known_cuts;

  Pango() {
    // Unhinted outlines: the same widths at every size, as librsvg and browsers draw them.
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context.get(), options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(context.get(), FALSE);
    // SVG text runs left to right unless told otherwise; runs inside it find their own way.
    pango_context_set_base_dir(context.get(), PANGO_DIRECTION_LTR);
    layout.reset(pango_layout_new(context.get()));
    pango_layout_set_auto_dir(layout.get(), FALSE);
    pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
  }

  // Until the next call.
  const Cuts& cuts(const std::string& text, const Font& font) {
    const auto found = known_cuts.find(text);
    if (found != known_cuts.end()) return found->second;
    if (known_cuts.size() >= most_remembered) known_cuts.clear();
    describe(layout.get(), text, font);
    return known_cuts[text] = cuts_of(layout.get(), text);
  }
};

TextRuler::TextRuler() : pango_(std::make_unique<Pango>()) {}
TextRuler::~TextRuler() = default;
TextRuler::TextRuler(TextRuler&&) noexcept = default;
TextRuler& TextRuler::operator=(TextRuler&&) noexcept = default;

TextSize TextRuler::measure(const std::string& text, const Font& font) const {
  const std::string key =
      fmt::format("{}|{}|{}|{}|{}", text, font.family, font.size, font.bold, font.italic);
  const auto known = pango_->known.find(key);
  if (known != pango_->known.end()) return known->second;
  if (pango_->known.size() >= most_remembered) pango_->known.clear();
  return pango_->known[key] = shape(text, font);
}

TextSize TextRuler::shape(const std::string& text, const Font& font) const {
  PangoLayout* layout = pango_->layout.get();
  describe(layout, text, font);
  PangoRectangle ink, logical;
  pango_layout_get_extents(layout, &ink, &logical);
  const int baseline = pango_layout_get_baseline(layout);
  return {pixels(logical.width),
          pixels(baseline - logical.y),
          pixels(logical.y + logical.height - baseline),
          {pixels(ink.x), pixels(ink.y - baseline), pixels(ink.width), pixels(ink.height)}};
}

std::string TextRuler::shorten(const std::string& text, const Font& font, double width) const {
  if (measure(text, font).width <= width) return text;
  const std::vector<std::size_t>& characters = pango_->cuts(text, font).characters;
  const auto shortened = [&](std::size_t cut) { return trimmed(text.substr(0, cut)) + "\u2026"; };
  // The widest prefix that fits; prefixes grow with their length, so halving finds it.
  const auto too_wide = std::partition_point(
      characters.begin(), characters.end(),
      [&](std::size_t cut) { return measure(shortened(cut), font).width <= width; });
  return too_wide == characters.begin() ? std::string{} : shortened(*(too_wide - 1));
}

std::vector<std::string> TextRuler::wrap(const std::string& text, const Font& font, double width,
                                         std::size_t max_lines) const {
  std::vector<std::string> lines;
  std::string rest = text;
  while (!rest.empty() && lines.size() + 1 < max_lines && measure(rest, font).width > width) {
    const Cuts& places = pango_->cuts(rest, font);
    const auto fits = [&](std::size_t cut) {
      return measure(trimmed(rest.substr(0, cut)), font).width <= width;
    };
    auto cut = std::partition_point(places.lines.begin(), places.lines.end(), fits);
    std::size_t end = cut == places.lines.begin() ? 0 : *(cut - 1);
    if (end == 0) {  // one word, too wide: cut inside it, at least one character
      const auto wide =
          std::partition_point(places.characters.begin(), places.characters.end(), fits);
      end = wide == places.characters.begin() ? 0 : *(wide - 1);
      if (end == 0) end = places.characters.size() > 1 ? places.characters[1] : rest.size();
    }
    lines.push_back(trimmed(rest.substr(0, end)));
    rest.erase(0, end);
  }
  if (!rest.empty() && max_lines > 0) lines.push_back(shorten(rest, font, width));
  return lines;
}

std::vector<std::string> TextRuler::families() const {
  PangoFontFamily** list = nullptr;
  int count = 0;
  pango_font_map_list_families(pango_->fonts.get(), &list, &count);
  std::vector<std::string> names;
  names.reserve(static_cast<std::size_t>(std::max(count, 0)));
  for (int i = 0; i < count; ++i) names.emplace_back(pango_font_family_get_name(list[i]));
  g_free(list);
  std::sort(names.begin(), names.end());
  return names;
}

Box box_of(const TextShape& text, const TextRuler& ruler) {
  const TextSize size = ruler.measure(text.text, text.font);
  double x = text.at.x;
  if (text.anchor == Anchor::middle) x -= size.width / 2;
  if (text.anchor == Anchor::end) x -= size.width;
  return {x + size.ink.x, text.at.y + size.ink.y, size.ink.width, size.ink.height};
}

}  // namespace callfit

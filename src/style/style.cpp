#include <callfit/style/style.hpp>
#include <format/part.hpp>

#include <stdexcept>

namespace callfit {
namespace {

bool is_hex_colour(std::string_view text) { return parse_colour(text).has_value(); }

bool is_font_list(std::string_view text) {
  return text.find_first_of("<>&\"';{}") == std::string_view::npos;
}

constexpr Texts colour_rule{0, unlimited, "a colour such as \"#1a4c96\"", is_hex_colour};
constexpr Texts font_rule{
    1, 200, "font families, best first, such as \"Noto Sans, Arial, sans-serif\"", is_font_list};
constexpr Texts phrase_rule{0, 400, "a text of at most 400 characters"};

bool read_colours(Fields& colours, Style& style) {
  for (std::size_t i = 0; i < ink_count; ++i) {
    const auto ink = static_cast<Ink>(i);
    const auto text =
        colours.maybe(word(ink), [](const Part& part) { return part.text(colour_rule); });
    if (!text) continue;
    if (const auto colour = parse_colour(*text)) style[ink] = *colour;
  }
  return true;
}

bool read_fonts(Fields& fonts, Style& style) {
  style.headline_family = fonts.text_or("headline", font_rule, style.headline_family);
  style.text_family = fonts.text_or("text", font_rule, style.text_family);
  return true;
}

bool read_phrase(const Part& phrase, const std::string& key, Wording& words) {
  const std::string text = phrase.text(phrase_rule);
  if (!phrase.sound()) return false;
  try {
    words.set(key, text);
  } catch (const std::invalid_argument& wrong) {
    phrase.fault(wrong.what(), "");
  }
  return true;
}

void check_colours(const Style& style, Fields& document) {
  if (!document.sound("colours")) return;
  Faults& faults = document.part().faults();
  for (const Finding& low : check_contrast(style, faults.source(), "/colours"))
    faults.add(low.place.field, low.what, low.mend);
}

Dress dress_from(Fields& document, Dress dress) {
  document.text_or("about", any_text, "");
  const auto theme = document.maybe("theme", [](const Part& part) { return part.word<Theme>(); });
  if (theme) dress.style = house_style(*theme);
  document.maybe("colours", [&](const Part& part) {
    return part.object("colours by what they are for",
                       [&](Fields& colours) { return read_colours(colours, dress.style); });
  });
  document.maybe("fonts", [&](const Part& part) {
    return part.object(
        R"(font families for the headline and the text, best first, such as "Noto Sans, Arial, )"
        R"(sans-serif")",
        [&](Fields& fonts) { return read_fonts(fonts, dress.style); });
  });
  document.maybe("wording", [&](const Part& part) {
    return part.entries(Sizes{0, unlimited, "texts by phrase key"},
                        [&](const Part& phrase, const std::string& key) {
                          return read_phrase(phrase, key, dress.wording);
                        });
  });
  check_colours(dress.style, document);
  return dress;
}

}  // namespace

Dress with_style(Dress dress, std::string_view text, const std::string& source) {
  return read_document(parse_json(text, source), "callfit-style", source,
                       [&](Fields& document) { return dress_from(document, std::move(dress)); });
}

}  // namespace callfit

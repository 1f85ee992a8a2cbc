// Measuring, shortening and wrapping text by Pango (HarfBuzz shapes it, Fontconfig finds fonts).
#pragma once

#include <callfit/draw/figure.hpp>

#include <memory>
#include <string>
#include <vector>

namespace callfit {

/// Pixels, relative to the start of the baseline.
struct TextSize {
  double width = 0;    ///< advance
  double ascent = 0;   ///< of the font, above the baseline, > 0
  double descent = 0;  ///< of the font, below the baseline, > 0
  Box ink;             ///< what is really drawn, relative to the start of the baseline

  double height() const { return ascent + descent; }
};

/// One thread at a time; remembers what it has measured.
class TextRuler {
 public:
  TextRuler();
  ~TextRuler();
  TextRuler(TextRuler&&) noexcept;
  TextRuler& operator=(TextRuler&&) noexcept;

  TextSize measure(const std::string& text, const Font& font) const;

  /// The text itself where it fits `width`, else as much as fits and an ellipsis.
  std::string shorten(const std::string& text, const Font& font, double width) const;

  /// Broken at spaces (inside a word only where it alone is too wide) into lines of at most
  /// `width`; at most `max_lines`, the last one shortened.
  std::vector<std::string> wrap(const std::string& text, const Font& font, double width,
                                std::size_t max_lines) const;

  /// Names of font families on this machine.
  std::vector<std::string> families() const;

 private:
  TextSize shape(const std::string& text, const Font& font) const;

  struct Pango;
  std::unique_ptr<Pango> pango_;
};

/// The ink of a text in place.
Box box_of(const TextShape& text, const TextRuler& ruler);

}  // namespace callfit

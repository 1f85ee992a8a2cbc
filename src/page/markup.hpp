// HTML under construction. Text gets in escaped; only what stands in the source of the program, or
// was drawn or made by it, gets in as it is.
#pragma once

#include <string>
#include <string_view>

namespace callfit::page {

/// Markup that is spelled out in the source: nothing that is read can become one.
class Literal {
 public:
  template <std::size_t size>
  consteval Literal(const char (&text)[size]) : text_(text, size - 1) {}  // NOLINT: from "..."
  std::string_view text() const { return text_; }

 private:
  std::string_view text_;
};

class Markup {
 public:
  Markup& operator<<(Literal literal) {
    bytes_ += literal.text();
    return *this;
  }
  /// Escaped, for between tags and for attributes in double quotes.
  Markup& text(std::string_view text);
  /// A JSON text inside a script element that is data.
  Markup& json(std::string_view json);
  /// base64 of bytes.
  Markup& packed(const std::string& bytes);
  /// A file of the page itself (page_files()), between the tags of a script or a style.
  Markup& own_file(std::string_view bytes);

  const std::string& bytes() const { return bytes_; }

 private:
  std::string bytes_;
};

}  // namespace callfit::page

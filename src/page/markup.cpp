#include <callfit/draw/svg.hpp>
#include <page/markup.hpp>

#include <stdexcept>

namespace callfit::page {

Markup& Markup::text(std::string_view text) {
  for (const char c : text) {
    switch (c) {
      case '&':
        bytes_ += "&amp;";
        break;
      case '<':
        bytes_ += "&lt;";
        break;
      case '>':
        bytes_ += "&gt;";
        break;
      case '"':
        bytes_ += "&quot;";
        break;
      case '\'':
        bytes_ += "&#39;";
        break;
      default:
        bytes_ += c;
    }
  }
  return *this;
}

// Inside JSON "<" stands in texts alone, where it may be written as an escape; so no tag can begin.
Markup& Markup::json(std::string_view json) {
  for (const char c : json) {
    if (c == '<')
      bytes_ += "\\u003c";
    else
      bytes_ += c;
  }
  return *this;
}

Markup& Markup::packed(const std::string& bytes) {
  bytes_ += base64(bytes);
  return *this;
}

Markup& Markup::own_file(std::string_view bytes) {
  for (const std::string_view end : {"</script", "</style", "<!--"})
    if (bytes.find(end) != std::string_view::npos)
      throw std::logic_error("a file of the page holds what would end its element");
  bytes_ += bytes;
  return *this;
}

}  // namespace callfit::page

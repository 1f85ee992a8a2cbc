#include <callfit/base/csv_field.hpp>

namespace callfit {

namespace {

bool is_blank_at_an_end(std::string_view text) {
  constexpr std::string_view blanks = " \t";
  return !text.empty() && (blanks.find(text.front()) != std::string_view::npos ||
                           blanks.find(text.back()) != std::string_view::npos);
}

}  // namespace

std::string csv_field(std::string_view text, char separator) {
  if (text.find_first_of("\"\r\n") == std::string_view::npos &&
      text.find(separator) == std::string_view::npos && !is_blank_at_an_end(text))
    return std::string(text);
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

}  // namespace callfit

#include <callfit/base/names.hpp>
#include <charting/key_words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace callfit::charting {
namespace {

template <class Number>
std::optional<Number> number_in(std::string_view text) {
  Number value = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (failed != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return std::isfinite(static_cast<double>(value)) ? std::optional(value) : std::nullopt;
}

bool goes_on(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80; }

}  // namespace

bool is_digit(const std::string& key) { return key.size() == 1 && key[0] >= '0' && key[0] <= '9'; }

std::optional<int> whole_number(std::string_view text) { return number_in<int>(text); }

std::optional<double> seconds_in(std::string_view text) { return number_in<double>(text); }

std::string seconds_text(double seconds) {
  std::string text = fmt::format("{:.2f}", seconds);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

bool is_character(const std::string& key) {
  if (key.empty() || static_cast<unsigned char>(key[0]) < 0x20) return false;
  return std::count_if(key.begin(), key.end(), [](char byte) { return !goes_on(byte); }) == 1;
}

void drop_character(std::string& text) {
  while (!text.empty() && goes_on(text.back())) text.pop_back();
  if (!text.empty()) text.pop_back();
}

std::string said(const Finding& finding) {
  const std::string column = finding.place.field.empty() ? "" : plain(finding.place.field) + ": ";
  return column + finding.what + (finding.mend.empty() ? "" : "; " + finding.mend);
}

}  // namespace callfit::charting

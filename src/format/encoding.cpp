#include <format/encoding.hpp>

#include <array>

namespace callfit {
namespace {

// Bytes 0x80 to 0x9F; 0 where the code page has none. The others are those of Unicode.
constexpr std::array<char32_t, 32> windows_1252_extras{
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

void append_utf8(std::string& out, char32_t point) {
  const auto put = [&](char32_t byte) { out += static_cast<char>(byte); };
  if (point < 0x80) {
    put(point);
    return;
  }
  if (point < 0x800) {
    put(0xC0 | (point >> 6));
  } else {
    if (point < 0x10000) {
      put(0xE0 | (point >> 12));
    } else {
      put(0xF0 | (point >> 18));
      put(0x80 | ((point >> 12) & 0x3F));
    }
    put(0x80 | ((point >> 6) & 0x3F));
  }
  put(0x80 | (point & 0x3F));
}

char32_t byte_at(std::string_view text, std::size_t i) {
  return static_cast<unsigned char>(text[i]);
}

}  // namespace

bool is_utf16(std::string_view text) {
  return text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF");
}

std::optional<std::string> from_utf16(std::string_view text) {
  const bool low_first = text.starts_with("\xFF\xFE");
  const auto unit = [&](std::size_t i) {
    const char32_t first = byte_at(text, i);
    const char32_t second = byte_at(text, i + 1);
    return low_first ? first | (second << 8) : second | (first << 8);
  };
  if (text.size() % 2 != 0) return std::nullopt;
  std::string out;
  for (std::size_t i = 2; i < text.size(); i += 2) {
    char32_t point = unit(i);
    if (point >= 0xD800 && point < 0xE000) {  // the first half of a pair
      i += 2;
      if (point >= 0xDC00 || i >= text.size()) return std::nullopt;
      const char32_t second = unit(i);
      if (second < 0xDC00 || second >= 0xE000) return std::nullopt;
      point = 0x10000 + ((point - 0xD800) << 10) + (second - 0xDC00);
    }
    append_utf8(out, point);
  }
  return out;
}

std::optional<std::string> from_windows_1252(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    char32_t point = byte_at(text, i);
    if (point >= 0x80 && point < 0xA0) point = windows_1252_extras[point - 0x80];
    if (point == 0) return std::nullopt;
    append_utf8(out, point);
  }
  return out;
}

}  // namespace callfit

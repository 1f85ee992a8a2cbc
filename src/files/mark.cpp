#include <callfit/format/json.hpp>
#include <files/mark.hpp>

#include <fmt/format.h>

#include <zlib.h>

#include <cstdint>
#include <optional>

namespace callfit {
namespace {

std::uint32_t checksum(std::string_view bytes) {
  return static_cast<std::uint32_t>(
      crc32_z(0, reinterpret_cast<const Bytef*>(bytes.data()), bytes.size()));
}

/// Four bytes, the highest first, as PNG has them.
std::string big_endian(std::uint32_t value) {
  std::string bytes;
  for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>(value >> shift & 0xFFU);
  return bytes;
}

/// A text chunk: length, type, keyword, text, checksum (PNG specification, 11.3.3.2).
std::string png_chunk(const std::string& mark) {
  const std::string data = std::string("Software") + '\0' + mark;
  const std::string body = "tEXt" + data;
  return big_endian(static_cast<std::uint32_t>(data.size())) + body + big_endian(checksum(body));
}

std::string json_key(const std::string& mark) {
  return fmt::format(",\n  \"{}\": \"{}\"", written_by_key, mark);
}

std::string markup_comment(const std::string& mark) { return "<!-- " + mark + " -->\n"; }
std::string pdf_comment(const std::string& mark) { return '%' + mark + '\n'; }
std::string edit_comment(const std::string& mark) { return "* " + mark + '\n'; }
std::string hash_comment(const std::string& mark) { return "# " + mark + '\n'; }
std::string cue_note(const std::string& mark) { return "\nNOTE " + mark + '\n'; }
std::string text_line(const std::string& mark) { return "\n[" + mark + "]\n"; }

/// How a kind of file holds the mark, and how many bytes come after it.
struct Place {
  std::string (*hold)(const std::string& mark);
  std::size_t after;
};

std::optional<Place> place_in(std::string_view bytes, std::string_view path) {
  constexpr std::string_view png = "\x89PNG\r\n\x1a\n";
  constexpr std::size_t png_end = 12;  // the chunk IEND
  constexpr std::string_view json_end = "\n}\n";
  // First, since the mark may make of the text the beginning of another kind.
  if (path.ends_with(".txt")) return Place{text_line, 0};
  if (bytes.starts_with(png) && bytes.size() >= png.size() + png_end)
    return Place{png_chunk, png_end};
  if (bytes.starts_with("%PDF-")) return Place{pdf_comment, 0};
  if (bytes.starts_with("<svg ") || bytes.starts_with("<!doctype html>"))
    return Place{markup_comment, 0};
  if (bytes.starts_with("{\n") && bytes.ends_with(json_end) && bytes.size() > json_end.size() + 1)
    return Place{json_key, json_end.size()};
  if (bytes.starts_with("TITLE: ")) return Place{edit_comment, 0};
  if (bytes.starts_with("ffconcat ") || bytes.starts_with("#!/bin/sh\n"))
    return Place{hash_comment, 0};
  if (bytes.starts_with("WEBVTT\n")) return Place{cue_note, 0};
  return std::nullopt;
}

}  // namespace

std::string marked(std::string_view bytes, std::string_view path) {
  std::string out(bytes);
  if (const auto place = place_in(bytes, path))
    out.insert(out.size() - place->after,
               place->hold(fmt::format("callfit {:08x}", checksum(bytes))));
  return out;
}

bool is_marked(std::string_view bytes, std::string_view path) {
  const auto place = place_in(bytes, path);
  if (!place) return false;
  const std::size_t length = place->hold("callfit 00000000").size();
  if (bytes.size() < place->after + length) return false;
  std::string plain(bytes);
  plain.erase(plain.size() - place->after - length, length);
  return marked(plain, path) == bytes;
}

}  // namespace callfit

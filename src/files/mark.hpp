// The mark by which callfit knows a file that it wrote itself.
#pragma once

#include <string>
#include <string_view>

namespace callfit {

/// The bytes with the mark "callfit XXXXXXXX" where their kind has room for one: a key of a JSON
/// document, a comment of an SVG, an HTML page or a PDF, a text chunk of a PNG, a comment of a cut
/// list, the last line of a text (`path` ends in .txt). XXXXXXXX is the CRC-32 of the bytes without
/// it. Other bytes stay as they are.
std::string marked(std::string_view bytes, std::string_view path);

/// Whether the bytes are marked and nobody has changed them since.
bool is_marked(std::string_view bytes, std::string_view path);

}  // namespace callfit

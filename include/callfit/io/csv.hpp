// Comma-separated text (RFC 4180) cut into rows that remember their line. Knows no football.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

struct CsvRow {
  std::size_t line = 0;  ///< line of the file on which the row begins, counted from 1
  std::vector<std::string> fields;
};

struct CsvTable {
  std::string source;  ///< file name, for messages
  CsvRow header;
  std::vector<CsvRow> rows;  ///< blank lines and rows of blank fields left out
};

/// Cuts `text` into a header and rows. Accepts a UTF-8 byte order mark, LF, CRLF and CR line ends,
/// quoted fields with separators, quotes and line breaks inside, and the separators comma,
/// semicolon and tab (the one that the header uses). Throws InputError for a stray or unclosed
/// quote, a row whose number of fields differs from the header's, text that is not UTF-8, and a
/// file without a header.
CsvTable parse_csv(std::string_view text, const std::string& source);

/// Whether the bytes are well-formed UTF-8 without NUL.
bool is_utf8_text(std::string_view text);

}  // namespace callfit

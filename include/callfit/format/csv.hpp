// Comma-separated text (RFC 4180) cut into rows that remember their line. Knows no football.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

struct CsvRow {
  std::size_t line = 0;  ///< line of the text on which the row begins, counted from 1
  std::vector<std::string> fields;
};

/// Cuts text that arrives in blocks. Accepts a UTF-8 byte order mark, LF, CRLF and CR line ends,
/// quoted fields with separators, quotes and line breaks inside, and the separators comma,
/// semicolon and tab (the one that the header uses).
class CsvCutter {
 public:
  /// `on_row` gets the header, then every row that has as many fields; blank lines and rows of
  /// blank fields are left out. `source` names the text in messages.
  CsvCutter(std::string source, std::function<void(const CsvRow&)> on_row);
  ~CsvCutter();
  CsvCutter(const CsvCutter&) = delete;
  CsvCutter& operator=(const CsvCutter&) = delete;

  /// Throws InputError for a stray quote and for UTF-16.
  void feed(std::string_view block);
  /// After the last block. Throws InputError for an unclosed quote, text that is not UTF-8, rows
  /// whose number of fields differs from the header's, and a text without a header.
  void finish();

 private:
  class State;
  std::unique_ptr<State> state_;
};

/// Comma, semicolon or tab: the first of them that the header has, comma where it has none.
char separator_of(std::string_view header);

/// Whether the bytes are well-formed UTF-8 without NUL.
bool is_utf8_text(std::string_view text);

}  // namespace callfit

// Aligned plain-text tables and wrapped text.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Width of all texts for a terminal.
inline constexpr std::size_t text_width = 100;

enum class Align { left, right };

struct Column {
  std::string head;
  Align align = Align::right;
  std::size_t widest = 40;  ///< longer cells are cut, with an ellipsis
};

/// A table whose columns line up in a fixed-width font. Cells are UTF-8; each code point counts
/// as one place.
class Table {
 public:
  explicit Table(std::vector<Column> columns);

  /// Missing cells are blank; extra cells throw std::invalid_argument.
  void add(std::vector<std::string> cells);

  /// A line across all columns, above the rows that follow.
  void add_line(std::string text);

  /// Header, a rule, and the rows; every line ends in a newline, none in spaces.
  std::string text() const;

 private:
  struct Row {
    std::vector<std::string> cells;
    bool across = false;  ///< one cell over all columns
  };
  std::vector<Column> columns_;
  std::vector<Row> rows_;
};

std::size_t code_points(std::string_view utf8);

/// The text broken at blanks into lines of at most `width` places, each ended by a newline. A word
/// longer than that keeps a line of its own.
std::string wrapped(std::string_view text, std::size_t width = text_width,
                    std::string_view indent = "");

}  // namespace callfit

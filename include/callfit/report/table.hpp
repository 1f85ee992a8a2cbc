// Aligned plain-text tables and the number formats used in all reports.
#pragma once

#include <callfit/profile/profile.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

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

  /// Header, a rule, and the rows; every line ends in a newline, none in spaces.
  std::string text() const;

 private:
  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

std::size_t code_points(std::string_view utf8);

/// Number formats. All throw std::logic_error for NaN or infinity, so that none is ever printed.
std::string percent(double share);                     ///< 0.294 -> "29%"; one decimal below 10%
std::string fixed(double value, int decimals);         ///< 1.236, 2 -> "1.24"; never "-0.00"
std::string signed_fixed(double value, int decimals);  ///< "+0.21", "-0.07", "0.00"
std::string percent_range(const Interval& interval);   ///< "21-34%"
std::string range(const Interval& interval, int decimals, bool with_sign = false);  ///< "a to b"
std::string wrapped(std::string_view text, std::size_t width, std::string_view indent = "");

}  // namespace callfit

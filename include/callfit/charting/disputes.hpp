// Where a chart that is being settled and another one of the same snaps disagree.
#pragma once

#include <callfit/charting/chart_rows.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace callfit::charting {

/// A value that stands in the settled chart though the other chart has another one. The line is the
/// other chart's, which nobody writes meanwhile.
struct Upheld {
  std::size_t line = 0;
  ChartColumn column = ChartColumn::result;
  std::string mine, theirs;

  bool operator==(const Upheld&) const = default;
};

/// As CSV with the columns line, column, mine and theirs, and back. Throws InputError for other
/// text.
std::string upheld_text(const std::vector<Upheld>& upheld);
std::vector<Upheld> upheld_in(std::string_view text, const std::string& source);

/// One column of a snap that both charted and charted otherwise.
struct Dispute {
  std::size_t row = 0, their_row = 0;  ///< indices into the two charts
  ChartColumn column = ChartColumn::result;
  std::string mine, theirs;

  bool operator==(const Dispute&) const = default;
};

/// The disagreements of agreement() that are not upheld, by row and column of `mine`.
std::vector<Dispute> open_disputes(const ChartRows& mine, const ChartRows& theirs,
                                   const std::vector<Upheld>& upheld);

/// What a row takes with their value of the disputed column: that column first, then those of
/// theirs without which the row would be impossible (an incomplete throw takes the yards with it).
struct Taking {
  Answers values;
  std::string fault;  ///< why even all of theirs would not do; else empty
};
Taking taking(const ChartRows& mine, const ChartRows& theirs, const Dispute& dispute);

}  // namespace callfit::charting

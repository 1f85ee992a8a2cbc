// Which field of a row holds which column of a chart.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/chart/columns.hpp>
#include <callfit/format/csv.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Without the blanks around it.
std::string_view trimmed(std::string_view text);

/// Lower case, surrounding blanks cut, inner spaces and hyphens as underscores.
std::string plain_word(std::string_view text);

/// What the fields of a column hold.
enum class ColumnKind { unknown, text, number, yes_no, word, clock };

/// By the column's name; unknown where a chart has none of that name. Of words are level, family
/// and those with a fixed list.
ColumnKind kind_of(std::string_view column);

/// Field index of each column, nullopt where the chart has none.
using ColumnPlaces = std::array<std::optional<std::size_t>, column_count>;

class ChartHeader {
 public:
  ChartHeader(CsvRow header, std::string source);

  std::size_t line() const { return header_.line; }
  const ColumnPlaces& places() const { return places_; }
  /// Columns that stand twice or are missing although needed.
  const Findings& errors() const { return errors_; }
  /// To be called with every row: unknown columns without a name are told only if they hold
  /// anything.
  void see(const CsvRow& row);
  /// Unknown columns.
  Findings notices() const;

 private:
  void tell_missing();
  Finding unknown_column(std::size_t field, const std::string& name) const;

  CsvRow header_;
  std::string source_;
  ColumnPlaces places_;
  std::vector<std::size_t> unknown_;         // fields
  std::vector<std::size_t> nameless_empty_;  // of those, without name and without content so far
  Findings errors_;
};

}  // namespace callfit

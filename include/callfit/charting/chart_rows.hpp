// A chart's text as rows in which every byte stays that nobody changed.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/chart/columns.hpp>
#include <callfit/chart/snap.hpp>
#include <callfit/format/chart.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace callfit::charting {

/// Values of a row by column, as they are read: without quotes, blank where nothing is charted.
using Values = std::array<std::string, column_count>;

inline std::string& at(Values& values, ChartColumn column) {
  return values[static_cast<std::size_t>(column)];
}
inline const std::string& at(const Values& values, ChartColumn column) {
  return values[static_cast<std::size_t>(column)];
}

/// Values for some columns of a row; blank takes out what is there.
using Answers = std::vector<std::pair<ChartColumn, std::string>>;

/// One row as it stands in the text. `lead` is what stands before it: blank lines, the line end
/// that the row above lacks.
struct RowText {
  std::string lead, body, end;
};

class ChartRows {
 public:
  /// From the text of a chart, of a header alone too. Throws InputError as ChartReader does.
  ChartRows(std::string_view text, std::string source, ChartWords words);

  /// The header of a chart that is begun here: every column that can be charted beside a tape.
  static std::string fresh_text();

  std::size_t size() const { return rows_.size(); }
  const Snap& snap(std::size_t row) const { return rows_[row].snap; }
  Values values(std::size_t row) const;
  const RowText& row_text(std::size_t row) const { return rows_[row].text; }
  bool has(ChartColumn column) const {
    return column_places()[static_cast<std::size_t>(column)].has_value();
  }
  const ChartWords& words() const { return words_; }
  const std::string& source() const { return source_; }
  std::string text() const;
  /// Its snaps alone; lines of rows that were made here are no lines of text().
  Chart chart() const;

  /// What the reader says of a row of such values, and the snap where it says nothing against it.
  struct Read {
    std::optional<Snap> snap;
    Findings faults;
  };
  Read read(const Values& values) const;

  /// The row's text with these values: fields that say the same already keep their bytes.
  RowText changed(std::size_t row, const Values& values) const;
  /// A row of these values that can stand at a place.
  RowText made(std::size_t row, const Values& values) const;

  /// `text` must be one that read() has nothing against.
  void insert(std::size_t row, RowText text);
  void replace(std::size_t row, RowText text);
  void erase(std::size_t row);

  /// The text with further columns at its end, blank in every row; those that are there already are
  /// left out.
  std::string text_with(const std::vector<ChartColumn>& more) const;

 private:
  struct Row {
    RowText text;
    Snap snap;
  };
  using Places = std::array<std::optional<std::size_t>, column_count>;

  const Places& column_places() const { return places_; }
  Snap snap_of(const std::string& body) const;
  std::vector<std::string_view> fields_of(std::string_view body) const;
  std::string value_of(std::string_view field) const;
  std::string body_of(const Values& values) const;

  std::string source_;
  ChartWords words_;
  RowText header_;
  std::string line_end_ = "\n";
  char separator_ = ',';
  Places places_;
  std::vector<Row> rows_;
  std::string tail_;  // blank lines below the last row
};

}  // namespace callfit::charting

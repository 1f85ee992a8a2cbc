// CSV tables whose columns are the words of an enumeration, most of which may be left out.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/base/names.hpp>
#include <callfit/base/nearest.hpp>
#include <callfit/format/csv.hpp>
#include <format/box_score.hpp>
#include <format/chart_header.hpp>

#include <charconv>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace callfit {

template <class Column>
class WordedRows {
 public:
  /// `thing` is what a row is: "opponent".
  WordedRows(std::string source, std::string thing, std::vector<Column> needed)
      : source_(std::move(source)), thing_(std::move(thing)), needed_(std::move(needed)) {}

  /// Calls `row()` for each row behind the header. Throws InputError with all faults.
  template <class Row>
  void read(std::string_view text, const Row& row) {
    CsvCutter cutter(source_, [&](const CsvRow& cut) {
      row_ = &cut;
      if (!std::exchange(has_header_, true)) {
        read_header();
      } else if (has_needed()) {
        ++rows_;
        row();
      }
    });
    cutter.feed(text);
    cutter.finish();
    if (faults_.empty() && rows_ == 0)
      faults_.push_back({{source_, 0, {}}, "holds no " + thing_, "give a row for each"});
    if (!faults_.empty()) throw InputError(std::move(faults_));
  }

  std::size_t line() const { return row_->line; }
  std::size_t faults() const { return faults_.size(); }

  void fault(Column column, const std::string& what, const std::string& mend) {
    faults_.push_back({{source_, row_->line, std::string(word(column))}, what, mend});
  }

  /// Blank where the table has no such column.
  std::string_view field(Column column) const {
    const auto place = places_.find(column);
    return place == places_.end() ? std::string_view() : trimmed(row_->fields[place->second]);
  }

  std::optional<double> number(Column column, double least, double most, const std::string& want) {
    const std::string_view text = field(column);
    if (text.empty()) return {};
    double value = 0;
    const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (failed == std::errc() && end == text.data() + text.size() && value >= least &&
        value <= most)
      return value;
    fault(column, "\"" + std::string(text) + "\" cannot be", "give " + want);
    return {};
  }

  std::optional<double> count(Column column) {
    constexpr double most = 100000;
    return number(column, 0, most, "a count from 0 to 100000");
  }

  BoxScore box_score() {
    const BoxScore score{count(Column::attempts), count(Column::completions),
                         count(Column::interceptions), count(Column::sacks),
                         count(Column::scrambles)};
    if (!score.attempts && score.holds_any())
      fault(Column::attempts, "is blank beside other counts", "fill it in");
    else if (score.fewer_attempts_than_ends())
      fault(Column::attempts, "fewer than completions and interceptions", "mend one of them");
    return score;
  }

 private:
  bool has_needed() const {
    for (const Column column : needed_)
      if (!places_.contains(column)) return false;
    return true;
  }

  void read_header() {
    for (std::size_t i = 0; i < row_->fields.size(); ++i) {
      const std::string name = plain_word(row_->fields[i]);
      if (const auto column = from_word<Column>(name))
        places_[*column] = i;
      else
        faults_.push_back({{source_, row_->line, name},
                           "no column of " + thing_ + "s",
                           suggest(name, all_words<Column>())});
    }
    for (const Column column : needed_)
      if (!places_.contains(column)) fault(column, "the column is missing", "add it");
  }

  std::string source_, thing_;
  std::vector<Column> needed_;
  const CsvRow* row_ = nullptr;
  bool has_header_ = false;
  std::size_t rows_ = 0;
  std::map<Column, std::size_t> places_;
  Findings faults_;
};

}  // namespace callfit

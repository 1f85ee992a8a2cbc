// CSV tables of counts, read row by row with every fault told by file, row and column.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/format/csv.hpp>

#include <cstddef>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

class CountRows {
 public:
  /// `thing` is what a row is: "game".
  CountRows(std::string source, std::string thing, std::vector<std::string> needed_columns)
      : source_(std::move(source)), thing_(std::move(thing)), needed_(std::move(needed_columns)) {}

  /// Calls `row` for each row behind the header, which may ask for its fields. Throws InputError
  /// with the columns that are missing, or with all faults of all rows.
  void read(std::string_view text, const std::function<void()>& row);

  std::string_view field(const std::string& column) const;
  /// A whole number, maybe written "3.0"; a fault, and `least`, where it is none from least to
  /// most.
  int whole(const std::string& column, int least, int most, const std::string& want);
  /// 0 to 1000.
  double count(const std::string& column);
  void fault(const std::string& column, const std::string& what, const std::string& mend);

  std::size_t faults() const { return faults_.size(); }
  std::size_t line() const { return row_->line; }

 private:
  void read_header(const CsvRow& row);

  std::string source_, thing_;
  std::vector<std::string> needed_;
  std::map<std::string, std::size_t> places_;
  bool has_header_ = false;
  std::size_t rows_ = 0;
  const CsvRow* row_ = nullptr;
  Findings faults_;
};

}  // namespace callfit

// The sheets of workbooks (Office Open XML, ECMA-376; OpenDocument 1.3) as CSV.
#pragma once

#include <callfit/base/finding.hpp>
#include <files/archive.hpp>

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace callfit {

/// Cells that hold something, by row and column counted from 0.
using Cells = std::map<std::size_t, std::map<std::size_t, std::string>>;

/// Gathers cells. What is repeated or shared costs a workbook a few bytes each time: it is counted
/// as what comes of it.
class Grid {
 public:
  explicit Grid(std::string path) : path_(std::move(path)) {}

  /// An empty text is no cell. Throws InputError where there are more than `most_cells`, rows
  /// counted with them, or more than `Archive::longest` bytes of text.
  void put(std::size_t row, std::size_t column, const std::string& text);
  Cells take() { return std::move(cells_); }

 private:
  std::string path_;
  Cells cells_;
  std::size_t counted_ = 0;
  std::size_t bytes_ = 0;
};

/// The one sheet of a workbook that is read: the first that is shown and holds something.
struct Sheet {
  std::string name;
  Cells cells;
  std::size_t sheets = 1;  ///< of the workbook, those that are shown
};

/// Of both, the most that a chart may have.
inline constexpr std::size_t most_cells = 5'000'000;

/// Throw InputError about `path`.
Sheet read_xlsx(Archive& archive, const std::string& path);
Sheet read_ods(const std::string& content, const std::string& path);

[[noreturn]] void refuse_size(const std::string& path);

/// "12:34:00" of hours, minutes and seconds, with what is left of a second.
std::string clock_text(double seconds);
/// The shortest decimal that reads back as the same number.
std::string number_text_of(double value);

/// Whether the bytes are no text of a chart but a workbook, a page or the like, by their beginning.
bool is_workbook(std::string_view start);

/// The sheet as CSV, a line for each row. Cells have their values: numbers with a decimal point,
/// dates as 2026-09-04, times as 12:34:00. Throws InputError about `path` for other workbooks, with
/// how to save them.
std::string workbook_as_csv(const std::string& bytes, const std::string& path, Findings& notices);

}  // namespace callfit

// Charts: a spreadsheet of snaps in, checked values out. docs/chart.md defines the columns.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/chart/snap.hpp>
#include <callfit/format/dictionary.hpp>
#include <callfit/scheme/scheme.hpp>

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// The words that a chart may use for families and levels, where they are known; an empty list
/// accepts any.
struct ChartWords {
  std::vector<Family> families;
  std::vector<std::string> levels;
  Dictionary own = {};  ///< what the user's own words mean when a chart is mended
};

/// Reads a chart from CSV text (see CsvCutter) that arrives in blocks: what it holds on the way is
/// the snaps so far and a line of text. Columns stand in any order; their names and the words in
/// them may differ in case, and may have spaces or hyphens for underscores. Blank fields are not
/// charted.
class ChartReader {
 public:
  explicit ChartReader(std::string source, ChartWords words = {});
  ~ChartReader();
  ChartReader(const ChartReader&) = delete;
  ChartReader& operator=(const ChartReader&) = delete;

  /// Throws InputError for text that cannot be cut into rows.
  void feed(std::string_view block);
  /// The snaps in the order of the text, after the last block. Columns that a chart does not have
  /// are kept out and told in `notices`. Throws one InputError with every missing column,
  /// unreadable field and impossible row.
  Chart finish(Findings& notices);

 private:
  class State;
  std::unique_ptr<State> state_;
};

/// The same from one text. Of a chart that cannot be read it also tells what mending would do, one
/// finding a cause (see mend_chart).
Chart parse_chart(std::string_view text, const std::string& source, Findings& notices,
                  const ChartWords& words = {});

}  // namespace callfit

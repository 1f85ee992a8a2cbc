// Charts: a spreadsheet of snaps in, checked values out. docs/chart.md defines the columns.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/chart/snap.hpp>
#include <callfit/scheme/scheme.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// The words that a chart may use for families and levels, where they are known; an empty list
/// accepts any.
struct ChartWords {
  std::vector<Family> families;
  std::vector<std::string> levels;
};

/// Snaps of a CSV text (see parse_csv), in file order. Columns stand in any order; their names and
/// the words in them may differ in case, and may have spaces or hyphens for underscores. Columns
/// that a chart does not have are kept out and told in `notices`. Blank fields are not charted.
/// Throws one InputError with every missing column, unreadable field and impossible row.
Chart parse_chart(std::string_view text, const std::string& source, Findings& notices,
                  const ChartWords& words = {});

Chart read_chart(const std::string& path, Findings& notices, const ChartWords& words = {});

}  // namespace callfit

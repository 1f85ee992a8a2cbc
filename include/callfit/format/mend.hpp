// Spreadsheets as people have them into charts that can be read. docs/chart.md lists what is
// mended.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/base/names.hpp>
#include <callfit/format/chart.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Why something was mended.
enum class MendCause {
  encoding,
  separator_line,
  title,
  totals,
  column_name,
  nothing,
  word,
  side,
  number,
  clock,
  spaces,
};

template <>
inline constexpr auto enum_words<MendCause> =
    std::to_array<std::string_view>({"encoding", "separator_line", "title", "totals", "column_name",
                                     "nothing", "word", "side", "number", "clock", "spaces"});

/// One thing done.
struct Mend {
  std::size_t line = 0;  ///< of the text as it was
  std::string column;    ///< empty where it is the whole line
  MendCause cause = MendCause::word;
  std::string from, to;  ///< a field; of a line left out, `from` is the line
};

struct MendedChart {
  std::string text;                ///< the very bytes that came in where nothing was mended
  std::vector<Mend> mends;         ///< by line
  Findings doubts;                 ///< warnings: what only the one who charted can tell
  std::vector<std::size_t> lines;  ///< of each line of `text`, the line that it was
};

/// Mends what says what it means in other words. What it cannot mend it leaves as it stands. `text`
/// has the separators and line ends that a chart may have; where something was mended, `text` that
/// comes back has commas and LF.
MendedChart mend_chart(std::string_view text, const std::string& source, const ChartWords& words);

/// "chart.csv:12: yards: "7,0" is 7 now (a decimal comma)".
std::string mend_text(const Mend& mend, const std::string& source);

/// What mending would do, one finding a cause (of words, a cause and column) in the order of their
/// first lines, and its doubts.
Findings mend_findings(const MendedChart& mended, const std::string& source, Severity severity);

/// What to throw of a chart that ChartReader refuses: what mending would do and what would be wrong
/// even then; `refused` itself where there is nothing to mend.
InputError with_mending(const InputError& refused, std::string_view text, const std::string& source,
                        const ChartWords& words);

}  // namespace callfit

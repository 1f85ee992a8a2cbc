// What was mended, in words.
#include <callfit/format/mend.hpp>

#include <algorithm>
#include <array>
#include <utility>

namespace callfit {
namespace {

constexpr std::size_t most_examples = 3;
constexpr std::size_t longest_shown = 60;  // bytes

struct CauseWords {
  std::string_view one, many;
};

/// In the order of the enumerators.
constexpr std::array<CauseWords, enum_words<MendCause>.size()> cause_words{{
    {"line that is not UTF-8", "lines that are not UTF-8"},
    {"line that only names the separator", "lines that only name the separator"},
    {"line above the column names", "lines above the column names"},
    {"row of totals", "rows of totals"},
    {"column under another name", "columns under other names"},
    {"field with a mark for nothing", "fields with a mark for nothing"},
    {"word that a chart does not use", "words that a chart does not use"},
    {"yard line by side", "yard lines by side"},
    {"number with a decimal comma, a point or a dash for a minus",
     "numbers with a decimal comma, a point or a dash for a minus"},
    {"time as a sheet shows it", "times as a sheet shows them"},
    {"field with spaces that do not break", "fields with spaces that do not break"},
}};

const CauseWords& words_for(MendCause cause) {
  return cause_words[static_cast<std::size_t>(cause)];
}

bool is_left_out(MendCause cause) {
  return cause == MendCause::separator_line || cause == MendCause::title ||
         cause == MendCause::totals;
}

std::string shown(std::string_view text) {
  std::size_t end = std::min(text.size(), longest_shown);
  while (end < text.size() && end > 0 && (text[end] & 0xC0) == 0x80) --end;  // whole characters
  return '"' + std::string(text.substr(0, end)) + (end < text.size() ? "..." : "") + '"';
}

std::string written(const Mend& mend) { return mend.to.empty() ? "nothing" : mend.to; }

/// Mends of one cause.
struct Group {
  MendCause cause;
  std::string of_column;  // where the cause counts by column
  std::size_t first_line = 0;
  std::size_t count = 0;
  std::vector<std::string> columns;
  std::vector<std::string> examples;
  bool has_more = false;
};

void add_once(std::vector<std::string>& to, const std::string& text) {
  if (!text.empty() && std::find(to.begin(), to.end(), text) == to.end()) to.push_back(text);
}

void add(Group& group, const Mend& mend) {
  ++group.count;
  add_once(group.columns, mend.column);
  const std::string example =
      mend.cause == MendCause::encoding ? mend.from : written(mend) + " for " + shown(mend.from);
  if (group.examples.size() < most_examples)
    add_once(group.examples, example);
  else if (std::find(group.examples.begin(), group.examples.end(), example) == group.examples.end())
    group.has_more = true;
}

std::vector<Group> grouped(const std::vector<Mend>& mends) {
  std::vector<Group> groups;
  for (const Mend& mend : mends) {
    const std::string of_column = mend.cause == MendCause::word ? mend.column : "";
    auto group = std::find_if(groups.begin(), groups.end(), [&](const Group& g) {
      return g.cause == mend.cause && g.of_column == of_column;
    });
    if (group == groups.end())
      group = groups.insert(groups.end(), {mend.cause, of_column, mend.line, 0, {}, {}, false});
    add(*group, mend);
  }
  return groups;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

std::string deed(const Group& group) {
  if (is_left_out(group.cause))
    return group.count == 1 ? "mending leaves it out" : "mending leaves them out";
  if (group.cause == MendCause::encoding) return "mending reads " + group.examples.front();
  if (group.cause == MendCause::spaces) return "mending writes plain ones";
  return "mending writes " + joined(group.examples) + (group.has_more ? " and so on" : "");
}

}  // namespace

std::string mend_text(const Mend& mend, const std::string& source) {
  std::string text = source + ":" + std::to_string(mend.line) + ": ";
  if (!mend.column.empty()) text += mend.column + ": ";
  const std::string why = " (" + std::string(words_for(mend.cause).one) + ")";
  if (is_left_out(mend.cause)) return text + "left out " + shown(mend.from) + why;
  if (mend.cause == MendCause::encoding) return text + "read as " + mend.from + why;
  return text + "wrote " + written(mend) + " for " + shown(mend.from) + why;
}

Findings mend_findings(const MendedChart& mended, const std::string& source, Severity severity) {
  Findings findings;
  for (const Group& group : grouped(mended.mends)) {
    const CauseWords& words = words_for(group.cause);
    findings.push_back(
        {{source, group.first_line, joined(group.columns)},
         std::to_string(group.count) + ' ' + std::string(group.count == 1 ? words.one : words.many),
         deed(group),
         severity});
  }
  findings.insert(findings.end(), mended.doubts.begin(), mended.doubts.end());
  return findings;
}

}  // namespace callfit

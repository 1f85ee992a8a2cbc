#include <callfit/base/csv_field.hpp>
#include <callfit/charting/disputes.hpp>
#include <callfit/format/csv.hpp>
#include <charting/key_words.hpp>

namespace callfit::charting {
namespace {

constexpr std::string_view upheld_head = "line,column,mine,theirs\n";
const std::vector<std::string> upheld_names{"line", "column", "mine", "theirs"};

[[noreturn]] void refuse_upheld(const std::string& source, std::size_t line) {
  throw InputError(Finding{{source, line, ""},
                           "is no list of values that stand against another chart",
                           "its first line is line,column,mine,theirs; move the file elsewhere"});
}

Upheld upheld_of(const CsvRow& row, const std::string& source) {
  const auto line = whole_number(row.fields[0]);
  const auto column = from_word<ChartColumn>(row.fields[1]);
  if (!line || *line < 1 || !column) refuse_upheld(source, row.line);
  return {static_cast<std::size_t>(*line), *column, row.fields[2], row.fields[3]};
}

}  // namespace

std::string upheld_text(const std::vector<Upheld>& upheld) {
  std::string text(upheld_head);
  for (const Upheld& one : upheld)
    text += std::to_string(one.line) + ',' + std::string(word(one.column)) + ',' +
            csv_field(one.mine) + ',' + csv_field(one.theirs) + '\n';
  return text;
}

std::vector<Upheld> upheld_in(std::string_view text, const std::string& source) {
  std::vector<Upheld> upheld;
  bool is_head = true;
  CsvCutter cutter(source, [&](const CsvRow& row) {
    if (is_head && row.fields != upheld_names) refuse_upheld(source, row.line);
    if (!is_head) upheld.push_back(upheld_of(row, source));
    is_head = false;
  });
  cutter.feed(text);
  cutter.finish();
  return upheld;
}

}  // namespace callfit::charting

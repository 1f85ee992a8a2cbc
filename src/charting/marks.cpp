#include <callfit/base/csv_field.hpp>
#include <callfit/charting/charting.hpp>
#include <callfit/format/csv.hpp>

namespace callfit::charting {
namespace {

constexpr std::string_view marks_head = "clip,start,end\n";

}  // namespace

std::string marks_text(const std::vector<Mark>& marks) {
  std::string text(marks_head);
  for (const Mark& mark : marks)
    text += csv_field(mark.clip) + ',' + csv_field(mark.start) + ',' + csv_field(mark.end) + '\n';
  return text;
}

std::vector<Mark> marks_in(std::string_view text, const std::string& source) {
  std::vector<Mark> marks;
  bool is_head = true;
  CsvCutter cutter(source, [&](const CsvRow& row) {
    if (is_head && row.fields != std::vector<std::string>{"clip", "start", "end"})
      throw InputError(Finding{{source, row.line, ""},
                               "holds no marks of snaps",
                               "its first line is clip,start,end; move the file elsewhere"});
    if (!is_head) marks.push_back({row.fields[0], row.fields[1], row.fields[2]});
    is_head = false;
  });
  cutter.feed(text);
  cutter.finish();
  return marks;
}

}  // namespace callfit::charting

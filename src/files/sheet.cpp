#include <callfit/base/csv_field.hpp>
#include <files/sheet.hpp>
#include <files/stream.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace callfit {
namespace {

constexpr std::string_view zip_start = "PK\x03\x04";
/// By how they begin.
constexpr auto other_kinds = std::to_array<std::pair<std::string_view, std::string_view>>(
    {{"\xD0\xCF\x11\xE0", "a workbook of the old kind (.xls) or in cipher"},
     {"ID;P", "a sheet in SYLK"},
     {"TABLE\n0,1", "a sheet in DIF"},
     {"TABLE\r\n0,1", "a sheet in DIF"},
     {"%PDF-", "a picture of a sheet (PDF)"}});
constexpr auto how_to_save =
    "save it as CSV (UTF-8), .xlsx or .ods: in the sheet's program by File, Save as";

Sheet read_workbook(const std::string& bytes, const std::string& path) {
  for (const auto& [start, kind] : other_kinds)
    if (bytes.starts_with(start)) refuse_file(path, "is " + std::string(kind), how_to_save);
  if (!bytes.starts_with(zip_start)) {
    if (bytes.find("<office:document") != std::string::npos) return read_ods(bytes, path);
    refuse_file(path, "is a web page or other XML and no chart", how_to_save);
  }
  Archive archive(bytes, path);
  if (archive.holds("xl/workbook.xml")) return read_xlsx(archive, path);
  if (const auto content = archive.file("content.xml")) return read_ods(*content, path);
  refuse_file(path, "is an archive and no workbook that can be read", how_to_save);
}

std::string on_one_line(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
  return text;
}

std::size_t width_of(const Cells& cells) {
  std::size_t width = 0;
  for (const auto& [row, fields] : cells) width = std::max(width, fields.rbegin()->first + 1);
  return width;
}

std::string csv_of(const Cells& cells, const std::string& path) {
  const std::size_t width = width_of(cells);
  if (cells.size() > most_cells / std::max<std::size_t>(width, 1)) refuse_size(path);
  std::string text;
  std::size_t line = 0;
  for (const auto& [row, fields] : cells) {
    text.append(row - line, '\n');
    line = row + 1;
    std::size_t place = 0;
    for (const auto& [column, field] : fields) {
      text.append(column - place, ',');
      place = column;
      text += csv_field(on_one_line(field));
    }
    text.append(width - 1 - place, ',');
    text += '\n';
  }
  return text;
}

}  // namespace

void Grid::put(std::size_t row, std::size_t column, const std::string& text) {
  if (text.empty()) return;
  const auto [place, is_new] = cells_.try_emplace(row);
  counted_ += is_new ? 2 : 1;
  bytes_ += text.size();
  if (counted_ > most_cells) refuse_size(path_);
  if (bytes_ > Archive::longest) refuse_length(path_);
  place->second[column] = text;
}

void refuse_size(const std::string& path) {
  refuse_file(path, fmt::format("has a sheet of more than {} cells", most_cells),
              "leave the chart alone in it");
}

std::string number_text_of(double value) { return fmt::format("{}", value); }

std::string clock_text(double seconds) {
  constexpr double longest = 1e7;
  if (!(seconds >= 0 && seconds < longest)) return number_text_of(seconds);
  const long long thousandths = std::llround(seconds * 1000);
  const long long whole = thousandths / 1000;
  std::string text = fmt::format("{}:{:02}:{:02}", whole / 3600, whole / 60 % 60, whole % 60);
  if (thousandths % 1000 != 0) text += fmt::format(".{:03}", thousandths % 1000);
  return text;
}

bool is_workbook(std::string_view start) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  const auto begins_as = [&](const auto& kind) { return start.starts_with(kind.first); };
  if (start.starts_with(zip_start) ||
      std::any_of(other_kinds.begin(), other_kinds.end(), begins_as))
    return true;
  if (start.starts_with(mark)) start.remove_prefix(mark.size());
  const std::size_t first = start.find_first_not_of(" \t\r\n");
  return first != std::string_view::npos && start[first] == '<';
}

std::string workbook_as_csv(const std::string& bytes, const std::string& path, Findings& notices) {
  const Sheet sheet = read_workbook(bytes, path);
  if (sheet.cells.empty()) refuse_file(path, "has no sheet that holds anything", how_to_save);
  if (sheet.sheets > 1)
    notices.push_back({{path, 0, {}},
                       fmt::format("has {} sheets; \"{}\" is read", sheet.sheets, sheet.name),
                       "put the chart first",
                       Severity::notice});
  return csv_of(sheet.cells, path);
}

}  // namespace callfit

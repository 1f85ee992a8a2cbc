#include <callfit/base/nearest.hpp>
#include <io/chart_header.hpp>

#include <algorithm>
#include <vector>

namespace callfit {
namespace {

bool holds_anything(const CsvTable& table, std::size_t field) {
  return std::any_of(table.rows.begin(), table.rows.end(),
                     [field](const CsvRow& row) { return !plain_word(row.fields[field]).empty(); });
}

std::vector<std::string> missing_optional(const ColumnPlaces& places) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < column_count; ++i)
    if (!places[i]) names.emplace_back(word(static_cast<ChartColumn>(i)));
  return names;
}

void tell_unknown(const CsvTable& table, const std::vector<std::size_t>& unknown,
                  const ColumnPlaces& places, Findings& notices) {
  for (const std::size_t field : unknown) {
    const std::string name = plain_word(table.header.fields[field]);
    if (name.empty() && !holds_anything(table, field)) continue;
    const std::string near = nearest_word(name, missing_optional(places));
    const std::string shown =
        name.empty() ? "column " + std::to_string(field + 1) : table.header.fields[field];
    notices.push_back({{table.source, table.header.line, shown},
                       "a chart has no such column; it is kept out",
                       near.empty() ? "" : "did you mean " + near + "?",
                       Severity::notice});
  }
}

void tell_missing(const CsvTable& table, const std::vector<std::size_t>& unknown,
                  const ColumnPlaces& places, Findings& errors) {
  std::vector<std::string> names;
  names.reserve(unknown.size());
  for (const std::size_t field : unknown) names.push_back(plain_word(table.header.fields[field]));
  for (std::size_t i = 0; i < needed_column_count; ++i) {
    if (places[i]) continue;
    const std::string name(word(static_cast<ChartColumn>(i)));
    const std::string near = nearest_word(name, names);
    errors.push_back({{table.source, table.header.line, name},
                      "the column is missing",
                      near.empty() ? "add it" : "rename " + near + " if that is it"});
  }
}

}  // namespace

std::string plain_word(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  text = text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
  std::string plain(text);
  for (char& c : plain) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c == ' ' || c == '-') c = '_';
  }
  return plain;
}

ColumnPlaces column_places(const CsvTable& table, Findings& errors, Findings& notices) {
  ColumnPlaces places;
  std::vector<std::size_t> unknown;
  for (std::size_t field = 0; field < table.header.fields.size(); ++field) {
    const std::string name = plain_word(table.header.fields[field]);
    const auto column = from_word<ChartColumn>(name);
    if (!column) {
      unknown.push_back(field);
      continue;
    }
    auto& place = places[static_cast<std::size_t>(*column)];
    if (place)
      errors.push_back({{table.source, table.header.line, name},
                        "the column is there twice",
                        "keep one of them"});
    place = field;
  }
  tell_unknown(table, unknown, places, notices);
  tell_missing(table, unknown, places, errors);
  return places;
}

}  // namespace callfit

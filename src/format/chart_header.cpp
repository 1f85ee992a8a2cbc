#include <callfit/base/nearest.hpp>
#include <format/chart_header.hpp>

#include <algorithm>

namespace callfit {
namespace {

std::vector<std::string> missing_optional(const ColumnPlaces& places) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < column_count; ++i)
    if (!places[i]) names.emplace_back(word(static_cast<ChartColumn>(i)));
  return names;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

std::string plain_word(std::string_view text) {
  std::string plain(trimmed(text));
  for (char& c : plain) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c == ' ' || c == '-') c = '_';
  }
  return plain;
}

ColumnKind kind_of(std::string_view column) {
  if (column == "start" || column == "end") return ColumnKind::clock;
  const auto known = from_word<ChartColumn>(column);
  if (!known) return ColumnKind::unknown;
  switch (*known) {
    case ChartColumn::down:
    case ChartColumn::to_go:
    case ChartColumn::yards_to_goal:
    case ChartColumn::yards:
    case ChartColumn::quarter:
    case ChartColumn::air_yards:
    case ChartColumn::yac:
    case ChartColumn::evaded:
      return ColumnKind::number;
    case ChartColumn::pressure:
    case ChartColumn::on_time:
    case ChartColumn::catchable:
    case ChartColumn::fumble_lost:
      return ColumnKind::yes_no;
    case ChartColumn::level:
    case ChartColumn::family:
    case ChartColumn::result:
    case ChartColumn::shell:
    case ChartColumn::platform:
    case ChartColumn::lane:
      return ColumnKind::word;
    default:
      return ColumnKind::text;
  }
}

ChartHeader::ChartHeader(CsvRow header, std::string source)
    : header_(std::move(header)), source_(std::move(source)) {
  for (std::size_t field = 0; field < header_.fields.size(); ++field) {
    const std::string name = plain_word(header_.fields[field]);
    const auto column = from_word<ChartColumn>(name);
    if (!column) {
      unknown_.push_back(field);
      if (name.empty()) nameless_empty_.push_back(field);
      continue;
    }
    auto& place = places_[static_cast<std::size_t>(*column)];
    if (place)
      errors_.push_back(
          {{source_, header_.line, name}, "the column is there twice", "keep one of them"});
    place = field;
  }
  tell_missing();
}

void ChartHeader::tell_missing() {
  std::vector<std::string> names;
  names.reserve(unknown_.size());
  for (const std::size_t field : unknown_) names.push_back(plain_word(header_.fields[field]));
  for (std::size_t i = 0; i < needed_column_count; ++i) {
    if (places_[i]) continue;
    const std::string name(word(static_cast<ChartColumn>(i)));
    const std::string near = nearest_word(name, names);
    errors_.push_back({{source_, header_.line, name},
                       "the column is missing",
                       near.empty() ? "add it" : "rename " + near + " if that is it"});
  }
}

void ChartHeader::see(const CsvRow& row) {
  std::erase_if(nameless_empty_,
                [&](std::size_t field) { return !trimmed(row.fields[field]).empty(); });
}

Finding ChartHeader::unknown_column(std::size_t field, const std::string& name) const {
  const std::string near = nearest_word(name, missing_optional(places_));
  const std::string shown =
      name.empty() ? "column " + std::to_string(field + 1) : header_.fields[field];
  return {{source_, header_.line, shown},
          "a chart has no such column; it is kept out",
          near.empty() ? "" : "did you mean " + near + "?",
          Severity::notice};
}

Findings ChartHeader::notices() const {
  Findings notices;
  for (const std::size_t field : unknown_) {
    const bool empty =
        std::find(nameless_empty_.begin(), nameless_empty_.end(), field) != nameless_empty_.end();
    if (!empty) notices.push_back(unknown_column(field, plain_word(header_.fields[field])));
  }
  return notices;
}

}  // namespace callfit

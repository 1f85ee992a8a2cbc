#include <callfit/base/csv_field.hpp>
#include <callfit/charting/chart_rows.hpp>
#include <callfit/format/csv.hpp>
#include <format/chart_header.hpp>

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace callfit::charting {
namespace {

constexpr std::array fresh_columns{
    ChartColumn::game,          ChartColumn::level,       ChartColumn::opponent,
    ChartColumn::quarter,       ChartColumn::down,        ChartColumn::to_go,
    ChartColumn::yards_to_goal, ChartColumn::family,      ChartColumn::result,
    ChartColumn::yards,         ChartColumn::shell,       ChartColumn::platform,
    ChartColumn::pressure,      ChartColumn::air_yards,   ChartColumn::lane,
    ChartColumn::on_time,       ChartColumn::catchable,   ChartColumn::yac,
    ChartColumn::evaded,        ChartColumn::fumble_lost, ChartColumn::note,
    ChartColumn::clip,          ChartColumn::start,       ChartColumn::end};

// A row with the line ends inside its quotes; its own line end stays in `text`.
std::string_view take_body(std::string_view& text) {
  bool quoted = false;
  std::size_t size = 0;
  for (; size < text.size(); ++size) {
    if (text[size] == '"') quoted = !quoted;
    if (!quoted && (text[size] == '\n' || text[size] == '\r')) break;
  }
  const std::string_view body = text.substr(0, size);
  text.remove_prefix(size);
  return body;
}

std::string_view take_end(std::string_view& text) {
  const std::size_t size = text.starts_with("\r\n") ? 2 : text.empty() ? 0 : 1;
  const std::string_view end = text.substr(0, size);
  text.remove_prefix(size);
  return end;
}

std::string whole(const RowText& row) { return row.lead + row.body + row.end; }

}  // namespace

std::string ChartRows::fresh_text() {
  std::string text;
  for (const ChartColumn column : fresh_columns)
    text += (text.empty() ? "" : ",") + std::string(word(column));
  return text + '\n';
}

ChartRows::ChartRows(std::string_view text, std::string source, ChartWords words)
    : source_(std::move(source)), words_(std::move(words)) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  std::string lead;
  if (text.starts_with(mark)) lead = mark;
  std::string_view rest = text.substr(lead.size());
  bool has_header = false;
  while (!rest.empty()) {
    RowText row{std::exchange(lead, {}), std::string(take_body(rest)), {}};
    row.end = take_end(rest);
    const bool says_something =
        row.body.find_first_not_of(has_header ? std::string{' ', '\t', '"', separator_} : " \t") !=
        std::string::npos;
    if (!says_something) {
      lead = whole(row);
    } else if (!has_header) {
      has_header = true;
      separator_ = separator_of(row.body);
      if (!row.end.empty()) line_end_ = row.end;
      header_ = std::move(row);
    } else {
      rows_.push_back({std::move(row), {}});
    }
  }
  tail_ = std::move(lead);

  CsvRow names{1, {}};
  for (const std::string_view field : fields_of(header_.body))
    names.fields.push_back(value_of(field));
  const ChartHeader header(std::move(names), source_);
  if (has_errors(header.errors())) throw InputError(header.errors());
  places_ = header.places();
  if (rows_.empty()) return;
  Findings notices;
  Chart chart = parse_chart(text, source_, notices, words_);
  if (chart.snaps.size() != rows_.size())
    throw InputError(
        Finding{{source_, 0, ""}, "its rows cannot be told apart", "save it as plain CSV"});
  for (std::size_t i = 0; i < rows_.size(); ++i) rows_[i].snap = std::move(chart.snaps[i]);
}

std::string ChartRows::text() const {
  std::string text = whole(header_);
  if (header_.end.empty() && !rows_.empty()) text += line_end_;
  for (const Row& row : rows_) text += whole(row.text);
  return text + tail_;
}

Chart ChartRows::chart() const {
  Chart chart{source_, {}};
  for (const Row& row : rows_) chart.snaps.push_back(row.snap);
  return chart;
}

std::vector<std::string_view> ChartRows::fields_of(std::string_view body) const {
  std::vector<std::string_view> fields;
  bool quoted = false;
  std::size_t start = 0;
  for (std::size_t i = 0; i <= body.size(); ++i) {
    if (i < body.size() && body[i] == '"') quoted = !quoted;
    if (i < body.size() && (quoted || body[i] != separator_)) continue;
    fields.push_back(body.substr(start, i - start));
    start = i + 1;
  }
  return fields;
}

std::string ChartRows::value_of(std::string_view field) const {
  field = trimmed(field);
  if (!field.starts_with('"')) return std::string(field);
  std::string value;
  for (std::size_t i = 1; i + 1 < field.size(); ++i) {
    if (field[i] == '"') ++i;  // written twice
    value += field[i];
  }
  return std::string(trimmed(value));
}

Values ChartRows::values(std::size_t row) const {
  Values values;
  const auto fields = fields_of(rows_[row].text.body);
  for (std::size_t c = 0; c < column_count; ++c)
    if (places_[c]) values[c] = value_of(fields.at(*places_[c]));
  return values;
}

std::string ChartRows::body_of(const Values& values) const {
  std::vector<std::string> fields(fields_of(header_.body).size());
  for (std::size_t c = 0; c < column_count; ++c)
    if (places_[c]) fields[*places_[c]] = csv_field(values[c], separator_);
  std::string body;
  for (const std::string& field : fields) {
    if (&field != &fields.front()) body += separator_;
    body += field;
  }
  return body;
}

ChartRows::Read ChartRows::read(const Values& values) const {
  try {
    return {snap_of(body_of(values)), {}};
  } catch (const InputError& error) {
    return {std::nullopt, error.findings()};
  }
}

Snap ChartRows::snap_of(const std::string& body) const {
  ChartReader reader(source_, words_);
  reader.feed(header_.body + '\n' + body + '\n');
  Findings notices;
  return std::move(reader.finish(notices).snaps.front());
}

RowText ChartRows::changed(std::size_t row, const Values& values) const {
  const Row& old = rows_[row];
  const Values before = this->values(row);
  const auto fields = fields_of(old.text.body);
  std::vector<std::string> texts(fields.begin(), fields.end());
  for (std::size_t c = 0; c < column_count; ++c)
    if (places_[c] && values[c] != before[c]) texts[*places_[c]] = csv_field(values[c], separator_);
  RowText text{old.text.lead, {}, old.text.end};
  for (const std::string& field : texts) {
    if (&field != &texts.front()) text.body += separator_;
    text.body += field;
  }
  return text;
}

RowText ChartRows::made(std::size_t row, const Values& values) const {
  const bool lacks_end = row > 0 ? rows_[row - 1].text.end.empty() : header_.end.empty();
  // Below a header without a line end text() puts one.
  return {lacks_end && row > 0 ? line_end_ : "", body_of(values), line_end_};
}

void ChartRows::insert(std::size_t row, RowText text) {
  Snap snap = snap_of(text.body);
  rows_.insert(rows_.begin() + static_cast<std::ptrdiff_t>(row),
               {std::move(text), std::move(snap)});
}

void ChartRows::replace(std::size_t row, RowText text) {
  Snap snap = snap_of(text.body);
  rows_[row] = {std::move(text), std::move(snap)};
}

void ChartRows::erase(std::size_t row) {
  rows_.erase(rows_.begin() + static_cast<std::ptrdiff_t>(row));
}

std::string ChartRows::text_with(const std::vector<ChartColumn>& more) const {
  std::string names, blanks;
  for (const ChartColumn column : more) {
    if (has(column)) continue;
    names += separator_ + std::string(word(column));
    blanks += separator_;
  }
  std::string text = header_.lead + header_.body + names + header_.end;
  if (header_.end.empty() && !rows_.empty()) text += line_end_;
  for (const Row& row : rows_) text += row.text.lead + row.text.body + blanks + row.text.end;
  return text + tail_;
}

}  // namespace callfit::charting

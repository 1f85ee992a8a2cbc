#include <callfit/base/csv_field.hpp>
#include <callfit/chart/columns.hpp>
#include <callfit/format/csv.hpp>
#include <callfit/format/mend.hpp>
#include <format/encoding.hpp>
#include <format/field_mender.hpp>

#include <algorithm>
#include <array>
#include <numeric>
#include <set>

namespace callfit {
namespace {

constexpr std::size_t most_lines_above = 30;
constexpr std::size_t fewest_names = 4;  // of the needed columns, to know a row of column names
constexpr std::array separators{',', ';', '\t'};

/// With their ends.
std::vector<std::string_view> lines_of(std::string_view text) {
  std::vector<std::string_view> lines;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find_first_of("\r\n"), text.size() - 1);
    const bool pair = text[end] == '\r' && end + 1 < text.size() && text[end + 1] == '\n';
    lines.push_back(text.substr(0, end + (pair ? 2 : 1)));
    text.remove_prefix(lines.back().size());
  }
  return lines;
}

bool is_separator_line(std::string_view line) {
  return plain_word(line.substr(0, 4)) == "sep=" && line.size() <= 5;
}

/// A name as it could stand in the header.
std::string name_of(std::string_view field) {
  std::string name = plain_word(with_plain_spaces(field));
  if (name.size() > 1 && name.front() == '"' && name.back() == '"')
    name = plain_word(name.substr(1, name.size() - 2));
  return name;
}

bool is_column(std::string_view name) { return kind_of(name) != ColumnKind::unknown; }

class Mender {
 public:
  Mender(std::string_view text, const std::string& source, const ChartWords& words)
      : source_(source), text_(text), meanings_(words) {}

  MendedChart mended() {
    decode();
    const auto lines = lines_of(text_);
    const std::size_t header = header_among(lines);
    if (header < lines.size()) {
      leave_out_above(lines, header);
      first_line_ = header + 1;
      mend_rows(text_.substr(static_cast<std::size_t>(lines[header].data() - text_.data())));
    }
    std::stable_sort(out_.mends.begin(), out_.mends.end(),
                     [](const Mend& a, const Mend& b) { return a.line < b.line; });
    return std::move(out_);
  }

 private:
  void decode() {
    keep_as_it_is(text_, 1);
    if (is_utf16(text_)) {
      if (auto utf8 = from_utf16(text_)) {
        out_.mends.push_back({1, {}, MendCause::encoding, "UTF-16", "UTF-8"});
        take_decoded(std::move(*utf8));
      }
    } else if (!is_utf8_text(text_)) {
      auto utf8 = from_windows_1252(text_);
      if (!utf8) return;
      std::size_t number = 0;
      for (const std::string_view line : lines_of(text_)) {
        ++number;
        if (std::any_of(line.begin(), line.end(), [](char c) { return (c & 0x80) != 0; }))
          out_.mends.push_back({number, {}, MendCause::encoding, "Windows-1252", "UTF-8"});
      }
      take_decoded(std::move(*utf8));
    } else if (text_.starts_with("\xEF\xBB\xBF")) {
      text_.remove_prefix(3);
    }
  }

  void take_decoded(std::string utf8) {
    decoded_ = std::move(utf8);
    text_ = decoded_;
    keep_as_it_is(text_, 1);
  }

  void keep_as_it_is(std::string_view text, std::size_t line) {
    out_.text = text;
    out_.lines.clear();
    out_.lines.resize(lines_of(text).size());
    std::iota(out_.lines.begin(), out_.lines.end(), line);
  }

  std::size_t header_among(const std::vector<std::string_view>& lines) const {
    for (std::size_t i = 0; i < std::min(lines.size(), most_lines_above); ++i)
      for (const char separator : separators)
        if (needed_names(lines[i], separator) >= fewest_names) return i;
    return lines.size();
  }

  std::size_t needed_names(std::string_view line, char separator) const {
    std::set<std::string> found;
    while (true) {
      const std::size_t end = line.find(separator);
      const auto column = from_word<ChartColumn>(meant_name(name_of(line.substr(0, end))));
      if (column && static_cast<std::size_t>(*column) < needed_column_count)
        found.emplace(word(*column));
      if (end == std::string_view::npos) return found.size();
      line.remove_prefix(end + 1);
    }
  }

  std::string meant_name(const std::string& name) const {
    return is_column(name) ? name : meanings_.of(place::header, name).value_or(name);
  }

  void leave_out_above(const std::vector<std::string_view>& lines, std::size_t header) {
    for (std::size_t i = 0; i < header; ++i) {
      const std::string_view line = trimmed(lines[i]);
      if (line.find_first_not_of(",;") == std::string_view::npos) continue;
      const bool names_separator = is_separator_line(line);
      out_.mends.push_back({i + 1,
                            {},
                            names_separator ? MendCause::separator_line : MendCause::title,
                            std::string(line),
                            {}});
    }
  }

  void mend_rows(std::string_view body) {
    std::vector<CsvRow> rows;
    CsvCutter cutter(source_, [&](const CsvRow& row) { rows.push_back(row); });
    try {
      cutter.feed(body);
      cutter.finish();
    } catch (const InputError&) {  // no rows to mend fields in; the reader says why
      if (!out_.mends.empty()) keep_as_it_is(body, first_line_);
      return;
    }
    for (CsvRow& row : rows) row.line += first_line_ - 1;
    name_columns(rows.front());
    rows.erase(rows.begin());
    leave_out_totals(rows);
    see_times(rows);
    std::string text = text_of(header_);
    std::vector<std::size_t> lines(lines_in(text), header_.line);
    for (const CsvRow& row : rows) {
      const std::string mended = text_of(mended_fields(row));
      for (std::size_t i = 0; i < lines_in(mended); ++i) lines.push_back(row.line + i);
      text += mended;
    }
    doubt_marks();
    doubt_sides();
    if (out_.mends.empty()) return;
    out_.text = std::move(text);
    out_.lines = std::move(lines);
  }

  static std::size_t lines_in(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
  }

  static std::string text_of(const CsvRow& row) {
    std::string text;
    for (const std::string& field : row.fields)
      text += (&field == &row.fields.front() ? "" : ",") + csv_field(field);
    return text + '\n';
  }

  void name_columns(const CsvRow& header) {
    header_ = header;
    std::set<std::string> taken;
    for (const std::string& field : header.fields) taken.insert(name_of(field));
    for (std::string& field : header_.fields) {
      const std::string name = name_of(field);
      const std::string meant = meant_name(name);
      const bool renamed = meant != name && taken.insert(meant).second;
      if (renamed || (is_column(name) && plain_word(field) != name)) {
        out_.mends.push_back({header.line, meant,
                              renamed ? MendCause::column_name : MendCause::spaces, field, meant});
        field = meant;
      }
      const std::string column = renamed ? meant : name;
      columns_.push_back(is_column(column) && column != word(ChartColumn::note) ? column : "");
    }
  }

  std::size_t place_of(std::string_view column) const {
    const auto found = std::find(columns_.begin(), columns_.end(), column);
    return static_cast<std::size_t>(found - columns_.begin());
  }

  std::string_view field_in(const CsvRow& row, std::string_view column) const {
    const std::size_t place = place_of(column);
    return place < row.fields.size() ? trimmed(row.fields[place]) : std::string_view();
  }

  bool has_result(const CsvRow& row) const {
    const std::string_view result = field_in(row, "result");
    return !result.empty() && (meanings_.can_read("result", result) ||
                               !meanings_.in_column("result", result).value_or("").empty());
  }

  bool says_total(const CsvRow& row) const {
    return std::any_of(row.fields.begin(), row.fields.end(), [&](const std::string& field) {
      std::string label = name_of(field);
      if (label.ends_with(':')) label.pop_back();
      return meanings_.of(place::row, label).has_value();
    });
  }

  /// Sums that a sheet has below its last snap.
  bool is_of_numbers(const CsvRow& row) const {
    return field_in(row, "game").empty() && field_in(row, "level").empty() &&
           field_in(row, "family").empty() && field_in(row, "result").empty() &&
           std::all_of(row.fields.begin(), row.fields.end(), [](const std::string& field) {
             return trimmed(field).find_first_not_of("0123456789.,-+%") == std::string_view::npos;
           });
  }

  void leave_out_totals(std::vector<CsvRow>& rows) {
    const auto last = std::find_if(rows.rbegin(), rows.rend(),
                                   [&](const CsvRow& row) { return has_result(row); });
    const std::size_t end = last == rows.rend() ? 0 : last->line;
    std::erase_if(rows, [&](const CsvRow& row) {
      const bool total = !has_result(row) &&
                         (says_total(row) || (row.line > end && end > 0 && is_of_numbers(row)));
      if (total) out_.mends.push_back({row.line, {}, MendCause::totals, shown(row), {}});
      return total;
    });
  }

  static std::string shown(const CsvRow& row) {
    std::string text;
    for (const std::string& field : row.fields)
      if (!trimmed(field).empty()) text += (text.empty() ? "" : " ") + std::string(trimmed(field));
    return text;
  }

  void see_times(const std::vector<CsvRow>& rows) {
    for (std::size_t i = 0; i < columns_.size(); ++i)
      if (kind_of(columns_[i]) == ColumnKind::clock)
        for (const CsvRow& row : rows) clock_.see(trimmed(with_plain_spaces(row.fields[i])));
  }

  CsvRow mended_fields(const CsvRow& row) {
    std::vector<std::string> plain;
    for (std::size_t i = 0; i < row.fields.size(); ++i)
      plain.emplace_back(columns_[i].empty() ? "" : trimmed(with_plain_spaces(row.fields[i])));
    const auto mended = mended_row(columns_, plain, meanings_, clock_);
    CsvRow out = row;
    for (std::size_t i = 0; i < plain.size(); ++i) {
      std::string& field = out.fields[i];
      if (mended[i]) {
        note(row.line, i, mended[i]->cause, plain[i], mended[i]->value);
        field = mended[i]->value;
      } else if (!columns_[i].empty() && with_plain_spaces(field) != field) {
        note(row.line, i, MendCause::spaces, field, plain[i]);
        field = plain[i];
      }
    }
    see_for_doubts(row, plain, mended);
    return out;
  }

  void note(std::size_t line, std::size_t place, MendCause cause, std::string from,
            std::string to) {
    out_.mends.push_back({line, columns_[place], cause, std::move(from), std::move(to)});
  }

  /// What a column of yes and no holds.
  struct Marks {
    std::size_t first_line = 0;  // of a mark
    std::size_t marks = 0;       // such as x, that people leave out for no
    bool has_no = false;
  };
  /// How yard lines are written.
  struct Sides {
    bool by_word = false, by_sign = false;
    std::size_t plain = 0, beyond_midfield = 0;  // first lines of plain numbers, 0 for none
  };

  void see_for_doubts(const CsvRow& row, const std::vector<std::string>& plain,
                      const std::vector<std::optional<Mended>>& mended) {
    marks_.resize(columns_.size());
    for (std::size_t i = 0; i < plain.size(); ++i) {
      const std::string value = mended[i] ? mended[i]->value : plain_word(plain[i]);
      if (kind_of(columns_[i]) == ColumnKind::yes_no)
        see_mark(row.line, plain[i], value, marks_[i]);
      if (columns_[i] == "yards_to_goal") see_side(row.line, plain[i], mended[i]);
    }
  }

  static void see_mark(std::size_t line, const std::string& plain, const std::string& value,
                       Marks& marks) {
    if (value == "no" || value == "n" || value == "false" || value == "0") marks.has_no = true;
    if (value != "yes") return;
    const std::string mark = plain_word(plain);
    if (mark != "x" && mark != "✓" && mark != "✔") return;
    if (marks.marks++ == 0) marks.first_line = line;
  }

  void see_side(std::size_t line, const std::string& plain, const std::optional<Mended>& mended) {
    if (mended && mended->cause == MendCause::side)
      (plain.front() == '-' ? sides_.by_sign : sides_.by_word) = true;
    else if (is_whole_number(plain) && plain != "50" && !plain.starts_with('+'))
      see_plain_spot(line, plain);
  }

  void see_plain_spot(std::size_t line, const std::string& plain) {
    if (sides_.plain == 0) sides_.plain = line;
    const bool beyond = plain.size() == 2 && plain > "50";
    if (beyond && sides_.beyond_midfield == 0) sides_.beyond_midfield = line;
  }

  void doubt_marks() {
    for (std::size_t i = 0; i < marks_.size(); ++i)
      if (marks_[i].marks > 0 && !marks_[i].has_no)
        doubt(marks_[i].first_line, columns_[i],
              "is marked " + std::to_string(marks_[i].marks) + " times and never says no",
              "write no where you looked and it was not so: a blank field is not charted");
  }

  void doubt_sides() {
    const std::size_t line = sides_.by_word   ? sides_.plain
                             : sides_.by_sign ? sides_.beyond_midfield
                                              : 0;
    if (line > 0)
      doubt(line, "yards_to_goal", "a plain number stands among yard lines by side",
            "see that it counts to the opponent's goal line");
  }

  void doubt(std::size_t line, const std::string& column, const std::string& what,
             const std::string& mend) {
    out_.doubts.push_back({{source_, line, column}, what, mend, Severity::warning});
  }

  const std::string& source_;
  std::string_view text_;
  std::string decoded_;
  Meanings meanings_;
  std::size_t first_line_ = 1;  // of the column names
  CsvRow header_;
  std::vector<std::string> columns_;  // names; empty where a field is left alone
  Clock clock_;
  std::vector<Marks> marks_;  // by column
  Sides sides_;
  MendedChart out_;
};

}  // namespace

MendedChart mend_chart(std::string_view text, const std::string& source, const ChartWords& words) {
  return Mender(text, source, words).mended();
}

InputError with_mending(const InputError& refused, std::string_view text, const std::string& source,
                        const ChartWords& words) {
  const MendedChart mended = mend_chart(text, source, words);
  if (mended.mends.empty()) return refused;
  Findings findings{{{source, 0, {}},
                     "cannot be read as it is",
                     "callfit check --mend writes a mended copy beside it"}};
  const Findings mends = mend_findings(mended, source, Severity::error);
  findings.insert(findings.end(), mends.begin(), mends.end());
  try {
    Findings ignored;
    ChartReader reader(source, words);
    reader.feed(mended.text);
    reader.finish(ignored);
  } catch (const InputError& left) {
    for (Finding finding : left.findings()) {
      std::size_t& line = finding.place.line;
      if (line > 0 && line <= mended.lines.size()) line = mended.lines[line - 1];
      findings.push_back(std::move(finding));
    }
  }
  return InputError(std::move(findings));
}

}  // namespace callfit

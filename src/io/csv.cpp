#include <callfit/base/finding.hpp>
#include <callfit/io/csv.hpp>

#include <csv.h>

#include <algorithm>
#include <new>

namespace callfit {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::string_view utf16_marks[] = {"\xFF\xFE", "\xFE\xFF"};

/// Collects what libcsv calls back. `line` is where the row in hand began, 0 between rows.
struct Collector {
  std::vector<CsvRow> rows;
  CsvRow current;

  static void on_field(void* bytes, std::size_t size, void* self) {
    auto& fields = static_cast<Collector*>(self)->current.fields;
    fields.emplace_back(static_cast<const char*>(bytes), bytes ? size : 0);
  }

  static void on_row(int, void* self) {
    auto& collector = *static_cast<Collector*>(self);
    collector.rows.push_back(std::move(collector.current));
    collector.current = {};
  }

  bool mid_row() const { return current.line > 0; }
};

struct Parser {
  csv_parser state{};

  explicit Parser(char separator) {
    if (csv_init(&state, CSV_STRICT | CSV_STRICT_FINI) != 0) throw std::bad_alloc();
    csv_set_delim(&state, static_cast<unsigned char>(separator));
  }
  ~Parser() { csv_free(&state); }
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;
};

/// Up to and including the next line end: LF, CRLF or CR.
std::string_view first_line(std::string_view text) {
  const std::size_t end = text.find_first_of("\r\n");
  if (end == std::string_view::npos) return text;
  const bool crlf = text[end] == '\r' && end + 1 < text.size() && text[end + 1] == '\n';
  return text.substr(0, end + (crlf ? 2 : 1));
}

bool is_blank(std::string_view line) {
  return line.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

[[noreturn]] void refuse(const std::string& source, std::size_t line, const std::string& what,
                         const std::string& mend) {
  throw InputError(Finding{{source, line, {}}, what, mend});
}

void check_parsed(Parser& parser, bool parsed, const std::string& source, std::size_t line) {
  if (parsed) return;
  if (csv_error(&parser.state) == CSV_ENOMEM) throw std::bad_alloc();
  refuse(source, line, "a quote stands where none may",
         "put the whole field in quotes and write a quote inside it twice");
}

/// libcsv keeps no line numbers, so it is fed a line at a time.
std::vector<CsvRow> cut(std::string_view text, char separator, const std::string& source) {
  Parser parser(separator);
  Collector collector;
  std::size_t line = 0;
  while (!text.empty()) {
    const std::string_view chunk = first_line(text);
    text.remove_prefix(chunk.size());
    ++line;
    if (!collector.mid_row()) {
      if (is_blank(chunk)) continue;
      collector.current.line = line;
    }
    const std::size_t done = csv_parse(&parser.state, chunk.data(), chunk.size(),
                                       Collector::on_field, Collector::on_row, &collector);
    check_parsed(parser, done == chunk.size(), source, line);
  }
  const std::size_t last = collector.current.line;
  const int failed = csv_fini(&parser.state, Collector::on_field, Collector::on_row, &collector);
  if (failed != 0) refuse(source, last, "a quoted field is not closed", "add the closing quote");
  return std::move(collector.rows);
}

/// The header decides: spreadsheets of some languages save with semicolons.
char separator_of(std::string_view text) {
  while (!text.empty() && is_blank(first_line(text))) text.remove_prefix(first_line(text).size());
  const std::string_view header = first_line(text);
  for (const char candidate : {',', ';', '\t'})
    if (header.find(candidate) != std::string_view::npos) return candidate;
  return ',';
}

std::string_view without_mark(std::string_view text, const std::string& source) {
  for (const std::string_view mark : utf16_marks)
    if (text.starts_with(mark))
      refuse(source, 1, "the text is UTF-16", "save the sheet as CSV in UTF-8");
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  return text;
}

void check_text(const std::vector<CsvRow>& rows, const std::string& source) {
  Findings findings;
  for (const CsvRow& row : rows)
    for (std::size_t i = 0; i < row.fields.size(); ++i)
      if (!is_utf8_text(row.fields[i]))
        findings.push_back({{source, row.line, "field " + std::to_string(i + 1)},
                            "the text is not UTF-8",
                            "save the sheet as CSV in UTF-8"});
  if (!findings.empty()) throw InputError(std::move(findings));
}

void check_widths(const CsvTable& table) {
  Findings findings;
  for (const CsvRow& row : table.rows)
    if (row.fields.size() != table.header.fields.size())
      findings.push_back({{table.source, row.line, {}},
                          std::to_string(row.fields.size()) + " fields where the header has " +
                              std::to_string(table.header.fields.size()),
                          "give one field a column; quote a field that holds a separator"});
  if (!findings.empty()) throw InputError(std::move(findings));
}

bool all_blank(const CsvRow& row) {
  return std::all_of(row.fields.begin(), row.fields.end(),
                     [](const std::string& field) { return is_blank(field); });
}

/// Bytes of the UTF-8 sequence at the front of `text` (Unicode 15, table 3-7); 0 when ill-formed.
std::size_t sequence_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(0);
  if (lead == 0) return 0;
  if (lead < 0x80) return 1;
  if (lead < 0xC2 || lead > 0xF4) return 0;
  const std::size_t length = lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
  if (text.size() < length) return 0;
  const unsigned char low = lead == 0xE0 ? 0xA0 : lead == 0xF0 ? 0x90 : 0x80;
  const unsigned char high = lead == 0xED ? 0x9F : lead == 0xF4 ? 0x8F : 0xBF;
  if (byte(1) < low || byte(1) > high) return 0;
  for (std::size_t i = 2; i < length; ++i)
    if (byte(i) < 0x80 || byte(i) > 0xBF) return 0;
  return length;
}

}  // namespace

bool is_utf8_text(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = sequence_length(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

CsvTable parse_csv(std::string_view text, const std::string& source) {
  text = without_mark(text, source);
  std::vector<CsvRow> rows = cut(text, separator_of(text), source);
  check_text(rows, source);
  if (rows.empty()) refuse(source, 0, "the file is empty", "begin with a row of column names");
  CsvTable table{source, std::move(rows.front()), {}};
  rows.erase(rows.begin());
  std::erase_if(rows, all_blank);
  table.rows = std::move(rows);
  check_widths(table);
  return table;
}

}  // namespace callfit

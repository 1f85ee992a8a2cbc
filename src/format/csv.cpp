#include <callfit/base/finding.hpp>
#include <callfit/format/csv.hpp>

#include <csv.h>

#include <algorithm>
#include <new>

namespace callfit {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::string_view utf16_marks[] = {"\xFF\xFE", "\xFE\xFF"};
constexpr std::size_t block_size = 1U << 16U;

struct Parser {
  csv_parser state{};

  Parser() {
    if (csv_init(&state, CSV_STRICT | CSV_STRICT_FINI) != 0) throw std::bad_alloc();
  }
  ~Parser() { csv_free(&state); }
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;
};

/// Bytes up to and including the first line end (LF, CRLF or CR); 0 when `text` may end before it.
/// None is in the first `searched` bytes.
std::size_t line_length(std::string_view text, std::size_t searched, bool is_last) {
  const std::size_t end = text.find_first_of("\r\n", searched);
  if (end == std::string_view::npos) return is_last ? text.size() : 0;
  if (text[end] == '\n') return end + 1;
  if (end + 1 == text.size()) return is_last ? text.size() : 0;
  return end + (text[end + 1] == '\n' ? 2 : 1);
}

bool is_blank(std::string_view line) {
  return line.find_first_not_of(" \t\r\n") == std::string_view::npos;
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

/// What libcsv calls back goes into `row_`; it is handed on when libcsv is not on the stack.
class CsvCutter::State {
 public:
  State(std::string source, std::function<void(const CsvRow&)> on_row)
      : source_(std::move(source)), on_row_(std::move(on_row)) {}

  void feed(std::string_view block) {
    while (!block.empty()) {
      waiting_.append(block.substr(0, block_size));
      block.remove_prefix(std::min(block.size(), block_size));
      cut_lines(false);
    }
  }

  void finish() {
    cut_lines(true);
    const std::size_t last = row_.line;
    if (csv_fini(&parser_.state, on_field, on_row_end, this) != 0)
      refuse(last, "a quoted field is not closed", "add the closing quote");
    hand_on();
    if (!encoding_faults_.empty()) throw InputError(std::move(encoding_faults_));
    if (columns_ == 0) refuse(0, "the file is empty", "begin with a row of column names");
    if (!width_faults_.empty()) throw InputError(std::move(width_faults_));
  }

 private:
  static void on_field(void* bytes, std::size_t size, void* self) {
    auto& fields = static_cast<State*>(self)->row_.fields;
    fields.emplace_back(static_cast<const char*>(bytes), bytes ? size : 0);
  }
  static void on_row_end(int, void* self) { static_cast<State*>(self)->row_ended_ = true; }

  [[noreturn]] void refuse(std::size_t line, const std::string& what,
                           const std::string& mend) const {
    throw InputError(Finding{{source_, line, {}}, what, mend});
  }

  /// libcsv keeps no line numbers, so it is fed a line at a time.
  void cut_lines(bool is_last) {
    std::string_view text = waiting_;
    while (const std::size_t length = line_length(text, searched_, is_last)) {
      searched_ = 0;
      ++line_;
      parse(line_ == 1 ? without_mark(text.substr(0, length)) : text.substr(0, length));
      text.remove_prefix(length);
    }
    waiting_.erase(0, waiting_.size() - text.size());
    searched_ = waiting_.empty() ? 0 : waiting_.size() - 1;  // a CR may end it
  }

  std::string_view without_mark(std::string_view text) const {
    for (const std::string_view mark : utf16_marks)
      if (text.starts_with(mark)) refuse(1, "the text is UTF-16", "save the sheet as CSV in UTF-8");
    if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
    return text;
  }

  void parse(std::string_view line) {
    if (row_.line == 0) {  // between rows
      if (is_blank(line)) return;
      if (columns_ == 0)
        csv_set_delim(&parser_.state, static_cast<unsigned char>(separator_of(line)));
      row_.line = line_;
    }
    const std::size_t done =
        csv_parse(&parser_.state, line.data(), line.size(), on_field, on_row_end, this);
    if (done != line.size()) {
      if (csv_error(&parser_.state) == CSV_ENOMEM) throw std::bad_alloc();
      refuse(line_, "a quote stands where none may",
             "put the whole field in quotes and write a quote inside it twice");
    }
    hand_on();
  }

  void hand_on() {
    if (!row_ended_) return;
    row_ended_ = false;
    if (check(row_)) on_row_(row_);
    row_.line = 0;
    row_.fields.clear();
  }

  bool check(const CsvRow& row) {
    for (std::size_t i = 0; i < row.fields.size(); ++i)
      if (!is_utf8_text(row.fields[i]))
        encoding_faults_.push_back({{source_, row.line, "field " + std::to_string(i + 1)},
                                    "the text is not UTF-8",
                                    "save the sheet as CSV in UTF-8"});
    const bool is_header = columns_ == 0;
    if (is_header) columns_ = row.fields.size();
    if (!is_header && all_blank(row)) return false;
    if (row.fields.size() != columns_)
      width_faults_.push_back({{source_, row.line, {}},
                               std::to_string(row.fields.size()) + " fields where the header has " +
                                   std::to_string(columns_),
                               "give one field a column; quote a field that holds a separator"});
    return encoding_faults_.empty() && width_faults_.empty();
  }

  std::string source_;
  std::function<void(const CsvRow&)> on_row_;
  Parser parser_;
  std::string waiting_;       // a line that is not yet whole
  std::size_t searched_ = 0;  // of it: no line end is there
  std::size_t line_ = 0;
  CsvRow row_;  // in hand; line 0 between rows
  bool row_ended_ = false;
  std::size_t columns_ = 0;  // of the header
  Findings encoding_faults_;
  Findings width_faults_;
};

CsvCutter::CsvCutter(std::string source, std::function<void(const CsvRow&)> on_row)
    : state_(std::make_unique<State>(std::move(source), std::move(on_row))) {}

CsvCutter::~CsvCutter() = default;

void CsvCutter::feed(std::string_view block) { state_->feed(block); }

void CsvCutter::finish() { state_->finish(); }

// The header decides: spreadsheets of some languages save with semicolons.
char separator_of(std::string_view header) {
  for (const char candidate : {',', ';', '\t'})
    if (header.find(candidate) != std::string_view::npos) return candidate;
  return ',';
}

bool is_utf8_text(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = sequence_length(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

}  // namespace callfit

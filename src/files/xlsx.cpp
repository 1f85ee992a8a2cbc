// Workbooks in Office Open XML (ECMA-376, part 1: SpreadsheetML).
#include <files/sheet.hpp>
#include <files/stream.hpp>

#include <fmt/format.h>
#include <pugixml.hpp>

#include <charconv>
#include <chrono>
#include <cmath>
#include <optional>

namespace callfit {
namespace {

constexpr std::size_t most_rows = 1'048'576;  // of a sheet in the programs that write it
constexpr std::size_t most_columns = 16'384;

/// Names of elements may have a prefix.
std::string_view local_name(const pugi::xml_node& node) {
  const std::string_view name = node.name();
  const std::size_t colon = name.find(':');
  return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

pugi::xml_node child(const pugi::xml_node& node, std::string_view name) {
  return node.find_child([&](const pugi::xml_node& one) { return local_name(one) == name; });
}

template <class Take>
void each(const pugi::xml_node& node, std::string_view name, const Take& take) {
  for (const pugi::xml_node& one : node.children())
    if (local_name(one) == name) take(one);
}

/// How a number is shown.
enum class Shown { number, date, time };

/// What a format code makes of a number (18.8.31): y and d tell dates, h and s times, outside of
/// quotes, escapes and brackets other than those of elapsed time.
Shown shown_by(std::string_view code) {
  Shown shown = Shown::number;
  for (std::size_t i = 0; i < code.size() && code[i] != ';'; ++i) {
    switch (code[i]) {
      case '"':
        i = std::min(code.find('"', i + 1), code.size() - 1);
        break;
      case '\\':
      case '_':
      case '*':
        ++i;
        break;
      case '[':
        if (code.substr(i + 1).find_first_of("hHmMsS") == 0) shown = Shown::time;
        i = std::min(code.find(']', i), code.size() - 1);
        break;
      case 'y':
      case 'Y':
      case 'd':
      case 'D':
        return Shown::date;
      case 'h':
      case 'H':
      case 's':
      case 'S':
        shown = Shown::time;
        break;
      default:
        break;
    }
  }
  return shown;
}

/// The formats without a code (18.8.30).
Shown shown_by(unsigned id) {
  if ((id >= 14 && id <= 17) || id == 22) return Shown::date;
  if ((id >= 18 && id <= 21) || (id >= 45 && id <= 47)) return Shown::time;
  return Shown::number;
}

/// Days are counted so that 1900 has a 29th of February, which no other calendar has.
std::string date_text(double days, bool from_1904) {
  if (!(days >= 0 && days < 3e6)) return number_text_of(days);
  using namespace std::chrono;
  const double whole = std::floor(days);
  const sys_days first = from_1904 ? sys_days{year{1904} / January / 1}
                                   : sys_days{year{1899} / December / (whole < 60 ? 31 : 30)};
  const year_month_day date{first + std::chrono::days(static_cast<int>(whole))};
  std::string text =
      fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                  static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  const double seconds = (days - whole) * 86400;
  return seconds < 0.0005 ? text : text + ' ' + clock_text(seconds);
}

std::optional<double> number_in(std::string_view text) {
  double value = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (failed != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
    return std::nullopt;
  return value;
}

class Book {
 public:
  Book(Archive& archive, const std::string& path) : archive_(archive), path_(path) {
    read_strings();
    read_formats();
  }

  Sheet first_sheet() {
    pugi::xml_document book;
    load(book, "xl/workbook.xml");
    const pugi::xml_node root = child(book, "workbook");
    from_1904_ = child(root, "workbookPr").attribute("date1904").as_bool();
    std::vector<pugi::xml_node> sheets;
    each(child(root, "sheets"), "sheet", [&](const pugi::xml_node& sheet) {
      const std::string_view state = sheet.attribute("state").value();
      if (state != "hidden" && state != "veryHidden") sheets.push_back(sheet);
    });
    const std::map<std::string, std::string> files = read_relations();
    for (const pugi::xml_node& sheet : sheets) {
      const auto file = files.find(relation_of(sheet));
      Cells cells = cells_of(file == files.end() ? "xl/" : file->second);
      if (!cells.empty()) return {sheet.attribute("name").value(), std::move(cells), sheets.size()};
    }
    return {};
  }

 private:
  void load(pugi::xml_document& document, const std::string& name) {
    const auto text = archive_.file(name);
    if (!text) refuse(name, "is missing");
    const auto result = document.load_buffer(text->data(), text->size(),
                                             pugi::parse_default | pugi::parse_ws_pcdata_single);
    if (!result) refuse(name, result.description());
  }

  [[noreturn]] void refuse(const std::string& name, const std::string& why) const {
    refuse_file(path_, "is a damaged workbook: " + name + ": " + why,
                "open it where it was made and save it again, or save it as CSV in UTF-8");
  }

  void read_strings() {
    const std::string name = "xl/sharedStrings.xml";
    if (!archive_.holds(name)) return;
    pugi::xml_document document;
    load(document, name);
    each(child(document, "sst"), "si",
         [&](const pugi::xml_node& item) { strings_.push_back(text_of(item)); });
  }

  /// Plain or in runs (18.4.8, 18.4.4); how it is pronounced is left out.
  static std::string text_of(const pugi::xml_node& item) {
    std::string text = child(item, "t").text().get();
    each(item, "r", [&](const pugi::xml_node& run) { text += child(run, "t").text().get(); });
    return text;
  }

  void read_formats() {
    const std::string name = "xl/styles.xml";
    if (!archive_.holds(name)) return;
    pugi::xml_document document;
    load(document, name);
    const pugi::xml_node root = child(document, "styleSheet");
    std::map<unsigned, Shown> codes;
    each(child(root, "numFmts"), "numFmt", [&](const pugi::xml_node& format) {
      codes[format.attribute("numFmtId").as_uint()] =
          shown_by(std::string_view(format.attribute("formatCode").value()));
    });
    each(child(root, "cellXfs"), "xf", [&](const pugi::xml_node& style) {
      const unsigned id = style.attribute("numFmtId").as_uint();
      const auto code = codes.find(id);
      shown_.push_back(code != codes.end() ? code->second : shown_by(id));
    });
  }

  /// Sheets' files by their relations (part 2, 9.3).
  std::map<std::string, std::string> read_relations() {
    pugi::xml_document document;
    load(document, "xl/_rels/workbook.xml.rels");
    std::map<std::string, std::string> files;
    each(child(document, "Relationships"), "Relationship", [&](const pugi::xml_node& relation) {
      const std::string file = relation.attribute("Target").value();
      files[relation.attribute("Id").value()] =
          file.starts_with('/') ? file.substr(1) : "xl/" + file;
    });
    return files;
  }

  static std::string relation_of(const pugi::xml_node& sheet) {
    std::string id;
    for (const pugi::xml_attribute& attribute : sheet.attributes()) {
      const std::string_view name = attribute.name();
      if (name.ends_with(":id")) id = attribute.value();
    }
    return id;
  }

  Cells cells_of(const std::string& file) {
    pugi::xml_document document;
    load(document, file);
    Grid grid(path_);
    std::size_t row_number = 0;
    each(child(child(document, "worksheet"), "sheetData"), "row", [&](const pugi::xml_node& row) {
      row_number = row.attribute("r").as_uint(static_cast<unsigned>(row_number + 1));
      if (row_number < 1 || row_number > most_rows) refuse(file, "a row lies outside of the sheet");
      std::size_t column = 0;
      each(row, "c", [&](const pugi::xml_node& cell) {
        column = column_of(cell.attribute("r").value(), column);
        if (column >= most_columns) refuse(file, "a cell lies outside of the sheet");
        grid.put(row_number - 1, column, value_of(cell));
        ++column;
      });
    });
    return grid.take();
  }

  /// "AB12" is column 27 counted from 0.
  static std::size_t column_of(std::string_view reference, std::size_t next) {
    std::size_t column = 0;
    for (const char c : reference) {
      if (c < 'A' || c > 'Z' || column > most_columns) break;
      column = 26 * column + static_cast<std::size_t>(c - 'A') + 1;
    }
    return column == 0 ? next : column - 1;
  }

  std::string value_of(const pugi::xml_node& cell) const {
    const std::string_view type = cell.attribute("t").value();
    if (type == "inlineStr") return text_of(child(cell, "is"));
    std::string value = child(cell, "v").text().get();
    if (value.empty()) return {};
    if (type == "b") return value == "1" ? "TRUE" : "FALSE";
    if (type == "str" || type == "e" || type == "d") return value;
    const auto number = number_in(value);
    if (!number) return value;
    if (type == "s") {
      const bool known = *number >= 0 && *number < static_cast<double>(strings_.size());
      return known ? strings_[static_cast<std::size_t>(*number)] : std::string();
    }
    const std::size_t style = cell.attribute("s").as_uint();
    const Shown shown = style < shown_.size() ? shown_[style] : Shown::number;
    if (shown == Shown::date) return date_text(*number, from_1904_);
    if (shown == Shown::time) return clock_text(*number * 86400);
    return number_text_of(*number);
  }

  Archive& archive_;
  const std::string& path_;
  std::vector<std::string> strings_;
  std::vector<Shown> shown_;  // by style
  bool from_1904_ = false;
};

}  // namespace

Sheet read_xlsx(Archive& archive, const std::string& path) {
  return Book(archive, path).first_sheet();
}

}  // namespace callfit

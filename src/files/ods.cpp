// Spreadsheets in OpenDocument (version 1.3, part 3), packed or flat.
#include <files/sheet.hpp>
#include <files/stream.hpp>

#include <pugixml.hpp>

#include <algorithm>
#include <charconv>
#include <cstring>

namespace callfit {
namespace {

bool is(const pugi::xml_node& node, const char* name) {
  return std::strcmp(node.name(), name) == 0;
}

/// The text of a cell's paragraphs (5.1.3, 6.1), without its remarks.
class Text : public pugi::xml_tree_walker {
 public:
  bool for_each(pugi::xml_node& node) override {
    if (remark_ >= 0 && depth() > remark_) return true;
    remark_ = is(node, "office:annotation") ? depth() : -1;
    if (remark_ >= 0) return true;
    if (is(node, "text:p") && !text.empty()) text += ' ';
    if (is(node, "text:s"))
      text.append(std::min(node.attribute("text:c").as_uint(1), most_spaces), ' ');
    if (is(node, "text:tab") || is(node, "text:line-break")) text += ' ';
    if (node.type() == pugi::node_pcdata || node.type() == pugi::node_cdata) text += node.value();
    return true;
  }

  std::string text;

 private:
  static constexpr unsigned most_spaces = 1000;
  int remark_ = -1;  // its depth
};

/// "PT12H34M05.5S" (XML Schema, 3.2.6) in seconds; below 0 for anything else.
double seconds_of(std::string_view duration) {
  if (!duration.starts_with("PT")) return -1;
  duration.remove_prefix(2);
  double seconds = 0;
  while (!duration.empty()) {
    double value = 0;
    const char* last = duration.data() + duration.size();
    const auto [end, failed] = std::from_chars(duration.data(), last, value);
    if (failed != std::errc() || end == last) return -1;
    const std::size_t unit = std::string_view("SMH").find(*end);
    if (unit == std::string_view::npos) return -1;
    seconds += value * (unit == 0 ? 1 : unit == 1 ? 60 : 3600);
    duration.remove_prefix(static_cast<std::size_t>(end - duration.data()) + 1);
  }
  return seconds;
}

std::string date_text(std::string date) {
  const std::size_t time = date.find('T');
  if (time == std::string::npos) return date;
  if (date.find_first_not_of("0:.", time + 1) == std::string::npos) return date.substr(0, time);
  date[time] = ' ';
  return date;
}

/// By type (19.385).
std::string value_of(const pugi::xml_node& cell) {
  const std::string_view type = cell.attribute("office:value-type").value();
  if (type == "float" || type == "percentage" || type == "currency") {
    const double value = cell.attribute("office:value").as_double();
    return number_text_of(value);
  }
  if (type == "date") return date_text(cell.attribute("office:date-value").value());
  if (type == "boolean") return cell.attribute("office:boolean-value").as_bool() ? "TRUE" : "FALSE";
  if (type == "time") {
    const double seconds = seconds_of(cell.attribute("office:time-value").value());
    if (seconds >= 0) return clock_text(seconds);
  }
  Text walker;
  pugi::xml_node node = cell;
  node.traverse(walker);
  return walker.text;
}

class Table {
 public:
  explicit Table(const std::string& path) : path_(path), grid_(path) {}

  /// Rows may stand in groups and headers (9.1.2).
  Cells cells_of(const pugi::xml_node& table) {
    add_rows(table, 0);
    return grid_.take();
  }

 private:
  static constexpr int deepest_group = 64;

  void add_rows(const pugi::xml_node& parent, int depth) {
    for (const pugi::xml_node& node : parent.children()) {
      if (is(node, "table:table-row"))
        add_row(node);
      else if (depth < deepest_group &&
               (is(node, "table:table-rows") || is(node, "table:table-header-rows") ||
                is(node, "table:table-row-group")))
        add_rows(node, depth + 1);
    }
  }

  void add_row(const pugi::xml_node& row) {
    const std::size_t times = repeated(row, "table:number-rows-repeated");
    std::size_t column = 0;
    for (const pugi::xml_node& cell : row.children()) {
      if (!is(cell, "table:table-cell") && !is(cell, "table:covered-table-cell")) continue;
      const std::size_t cells = repeated(cell, "table:number-columns-repeated");
      if (const std::string value = value_of(cell); !value.empty())
        for (std::size_t i = 0; i < times; ++i)
          for (std::size_t j = 0; j < cells; ++j) grid_.put(row_ + i, column + j, value);
      column += cells;
      if (column > most_cells) refuse_size(path_);
    }
    row_ += times;
    if (row_ > most_cells) refuse_size(path_);
  }

  static std::size_t repeated(const pugi::xml_node& node, const char* attribute) {
    return std::max(1U, node.attribute(attribute).as_uint(1));
  }

  const std::string& path_;
  Grid grid_;
  std::size_t row_ = 0;
};

}  // namespace

Sheet read_ods(const std::string& content, const std::string& path) {
  if (content.size() > Archive::longest) refuse_length(path);
  pugi::xml_document document;
  const auto result = document.load_buffer(content.data(), content.size(),
                                           pugi::parse_default | pugi::parse_ws_pcdata_single);
  if (!result)
    refuse_file(path, std::string("is a damaged workbook: ") + result.description(),
                "open it where it was made and save it again, or save it as CSV in UTF-8");
  const pugi::xml_node sheets =
      document.document_element().child("office:body").child("office:spreadsheet");
  const auto tables = sheets.children("table:table");
  const auto count = static_cast<std::size_t>(std::distance(tables.begin(), tables.end()));
  for (const pugi::xml_node& table : tables) {
    Cells cells = Table(path).cells_of(table);
    if (!cells.empty()) return {table.attribute("table:name").value(), std::move(cells), count};
  }
  return {};
}

}  // namespace callfit

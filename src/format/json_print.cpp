#include <format/json_print.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>

namespace callfit {
namespace {

using nlohmann::ordered_json;

constexpr std::size_t line_width = 100;

bool holds_structure(const ordered_json& value) {
  return std::any_of(value.begin(), value.end(),
                     [](const ordered_json& entry) { return entry.is_structured(); });
}

void print(const ordered_json& value, std::size_t indent, std::string& out);

/// With a blank after commas and colons, as people write.
std::string flat(const ordered_json& value) {
  if (!value.is_structured()) return one_line(value);
  std::string text = value.is_object() ? "{" : "[";
  for (auto entry = value.begin(); entry != value.end(); ++entry) {
    if (entry != value.begin()) text += ", ";
    if (value.is_object()) text += one_line(ordered_json(entry.key())) + ": ";
    text += flat(*entry);
  }
  return text + (value.is_object() ? "}" : "]");
}

/// A list of numbers too long for a line, broken where the line is full.
void print_wrapped(const ordered_json& list, std::size_t indent, std::string& out) {
  const std::string pad(indent + 2, ' ');
  out += "[\n" + pad;
  std::size_t column = pad.size();
  for (std::size_t i = 0; i < list.size(); ++i) {
    const std::string text = list[i].dump() + (i + 1 < list.size() ? "," : "");
    if (i > 0 && column + text.size() + 1 > line_width) {
      out += "\n" + pad;
      column = pad.size();
    } else if (i > 0) {
      out += ' ';
      ++column;
    }
    out += text;
    column += text.size();
  }
  out += "\n" + std::string(indent, ' ') + "]";
}

void print_entries(const ordered_json& value, std::size_t indent, std::string& out) {
  const std::string pad(indent + 2, ' ');
  out += value.is_object() ? "{\n" : "[\n";
  for (auto entry = value.begin(); entry != value.end(); ++entry) {
    if (entry != value.begin()) out += ",\n";
    out += pad;
    if (value.is_object()) out += one_line(ordered_json(entry.key())) + ": ";
    print(*entry, indent + 2, out);
  }
  out += "\n" + std::string(indent, ' ') + (value.is_object() ? "}" : "]");
}

void print(const ordered_json& value, std::size_t indent, std::string& out) {
  const bool plain_list = value.is_array() && !holds_structure(value);
  const bool small = !value.is_structured() || value.empty() ||
                     (indent > 0 && indent + flat(value).size() <= line_width);
  if (small)
    out += flat(value);
  else if (plain_list)
    print_wrapped(value, indent, out);
  else
    print_entries(value, indent, out);
}

}  // namespace

std::string one_line(const ordered_json& value) {
  return value.dump(-1, ' ', false, ordered_json::error_handler_t::replace);
}

std::string readable(const ordered_json& document) {
  std::string text;
  print(document, 0, text);
  return text + "\n";
}

}  // namespace callfit

#include <callfit/report/table.hpp>

#include <algorithm>
#include <sstream>
#include <stdexcept>

namespace callfit {
namespace {

bool continues(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

// What like cells differ by comes last: a short last part stays.
std::string last_part(const std::string& cell, std::size_t widest) {
  const std::size_t comma = cell.rfind(", ");
  if (comma == std::string::npos) return "";
  const std::string last = cell.substr(comma);
  return code_points(last) <= widest / 3 ? last : "";
}

std::string cut(const std::string& cell, std::size_t widest) {
  if (code_points(cell) <= widest) return cell;
  const std::string last = last_part(cell, widest);
  const std::size_t room = widest - code_points(last);
  std::string kept;
  std::size_t places = 0;
  for (const char byte : cell) {
    if (!continues(byte) && ++places == room) break;
    kept += byte;
  }
  return kept + "…" + last;
}

std::string padded(const std::string& cell, std::size_t width, Align align) {
  const std::string blanks(width - code_points(cell), ' ');
  return align == Align::left ? cell + blanks : blanks + cell;
}

std::string trimmed(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

}  // namespace

std::size_t code_points(std::string_view utf8) {
  return static_cast<std::size_t>(
      std::count_if(utf8.begin(), utf8.end(), [](char byte) { return !continues(byte); }));
}

Table::Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

void Table::add(std::vector<std::string> cells) {
  if (cells.size() > columns_.size()) throw std::invalid_argument("Table::add: too many cells");
  cells.resize(columns_.size());
  for (std::size_t c = 0; c < cells.size(); ++c) cells[c] = cut(cells[c], columns_[c].widest);
  rows_.push_back({std::move(cells), false});
}

void Table::add_line(std::string text) { rows_.push_back({{std::move(text)}, true}); }

std::string Table::text() const {
  std::vector<std::size_t> width(columns_.size());
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    width[c] = code_points(columns_[c].head);
    for (const Row& row : rows_)
      if (!row.across) width[c] = std::max(width[c], code_points(row.cells[c]));
  }
  const auto line_of = [&](auto cell_of) {
    std::string line;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      if (c > 0) line += "  ";
      line += padded(cell_of(c), width[c], columns_[c].align);
    }
    return trimmed(std::move(line)) + '\n';
  };
  std::string text = line_of([&](std::size_t c) { return columns_[c].head; });
  text += line_of([&](std::size_t c) { return std::string(width[c], '-'); });
  for (const Row& row : rows_)
    text += row.across ? row.cells.front() + '\n'
                       : line_of([&](std::size_t c) { return row.cells[c]; });
  return text;
}

std::string wrapped(std::string_view text, std::size_t width, std::string_view indent) {
  std::istringstream words{std::string(text)};
  std::string out;
  std::string line(indent);
  for (std::string word; words >> word;) {
    const bool fresh = line.size() == indent.size();
    if (!fresh && code_points(line) + 1 + code_points(word) > width) {
      out += line + '\n';
      line = std::string(indent) + word;
    } else {
      line += (fresh ? "" : " ") + word;
    }
  }
  return out + line + '\n';
}

}  // namespace callfit

#include <callfit/report/table.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>

namespace callfit {
namespace {

bool continues(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

std::string cut(const std::string& cell, std::size_t widest) {
  if (code_points(cell) <= widest) return cell;
  std::string kept;
  std::size_t places = 0;
  for (const char byte : cell) {
    if (!continues(byte) && ++places == widest) break;
    kept += byte;
  }
  return kept + "…";
}

std::string padded(const std::string& cell, std::size_t width, Align align) {
  const std::string blanks(width - code_points(cell), ' ');
  return align == Align::left ? cell + blanks : blanks + cell;
}

void require_finite(double value) {
  if (!std::isfinite(value)) throw std::logic_error("a number to print is not finite");
}

std::string trimmed(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

std::string percent_number(double share) {
  require_finite(share);
  const double value = 100 * share;
  const bool small = std::abs(value) < 9.95 && std::abs(value) > 0;
  return fixed(value, small ? 1 : 0);
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
  rows_.push_back(std::move(cells));
}

std::string Table::text() const {
  std::vector<std::size_t> width(columns_.size());
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    width[c] = code_points(columns_[c].head);
    for (const auto& row : rows_) width[c] = std::max(width[c], code_points(row[c]));
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
  for (const auto& row : rows_) text += line_of([&](std::size_t c) { return row[c]; });
  return text;
}

std::string fixed(double value, int decimals) {
  require_finite(value);
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find_first_not_of("-0.") == std::string::npos && text.front() == '-') text.erase(0, 1);
  return text;
}

std::string signed_fixed(double value, int decimals) {
  std::string text = fixed(value, decimals);
  const bool zero = text.find_first_not_of("0.") == std::string::npos;
  return zero || text.front() == '-' ? text : '+' + text;
}

std::string percent(double share) { return percent_number(share) + '%'; }

std::string percent_range(const Interval& interval) {
  return percent_number(interval.low) + '-' + percent_number(interval.high) + '%';
}

std::string range(const Interval& interval, int decimals, bool with_sign) {
  const auto number = [&](double v) {
    return with_sign ? signed_fixed(v, decimals) : fixed(v, decimals);
  };
  return number(interval.low) + " to " + number(interval.high);
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

#include <format/count_rows.hpp>

#include <callfit/base/nearest.hpp>
#include <callfit/base/visible.hpp>
#include <format/chart_header.hpp>

#include <algorithm>
#include <charconv>
#include <utility>

namespace callfit {

void CountRows::read(std::string_view text, const std::function<void()>& row) {
  CsvCutter cutter(source_, [&](const CsvRow& cut) {
    if (!has_header_) {
      read_header(cut);
    } else if (!places_.empty()) {
      ++rows_;
      row_ = &cut;
      row();
    }
  });
  cutter.feed(text);
  cutter.finish();
  if (faults_.empty() && rows_ == 0)
    faults_.push_back({{source_, 0, {}}, "holds no " + thing_, "give a row for each " + thing_});
  if (!faults_.empty()) throw InputError(std::move(faults_));
}

void CountRows::read_header(const CsvRow& row) {
  has_header_ = true;
  std::vector<std::string> names;
  for (const std::string& name : row.fields) names.push_back(plain_word(name));
  std::map<std::string, std::size_t> places;
  std::string missing;
  for (const std::string& column : needed_) {
    const auto found = std::find(names.begin(), names.end(), column);
    if (found == names.end()) missing += (missing.empty() ? "" : ", ") + column;
    places[column] = static_cast<std::size_t>(found - names.begin());
  }
  if (missing.empty())
    places_ = std::move(places);
  else
    faults_.push_back({{source_, row.line, {}}, "no column " + missing, "add what is missing"});
}

std::string_view CountRows::field(const std::string& column) const {
  return trimmed(row_->fields[places_.at(column)]);
}

void CountRows::fault(const std::string& column, const std::string& what, const std::string& mend) {
  faults_.push_back({{source_, row_->line, column}, what, mend});
}

int CountRows::whole(const std::string& column, int least, int most, const std::string& want) {
  std::string_view text = field(column);
  if (text.ends_with(".0")) text.remove_suffix(2);  // as some programs write whole numbers
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (!text.empty() && error == std::errc() && end == text.data() + text.size() && value >= least &&
      value <= most)
    return value;
  fault(column, text.empty() ? "is blank" : "\"" + shortened(text) + "\" cannot be",
        "give " + want);
  return least;
}

double CountRows::count(const std::string& column) {
  constexpr int most = 1000;
  return whole(column, 0, most, "a count from 0 to 1000");
}

}  // namespace callfit

#include <callfit/charting/charting.hpp>
#include <charting/key_words.hpp>

#include <algorithm>
#include <utility>

namespace callfit::charting {
namespace {

bool is_same(const Finding& a, const Finding& b) {
  return a.place.field == b.place.field && a.what == b.what;
}

// The reader blames a blank field for what is not there yet.
bool is_of_a_value(const Finding& finding, const Values& values) {
  const auto column = from_word<ChartColumn>(finding.place.field);
  return !column || !at(values, *column).empty();
}

}  // namespace

bool Charting::set(const Answers& answers) {
  OpenRow trial = *open_;
  for (const auto& [column, text] : answers) {
    if (!rows_.has(column)) {
      refuse("the chart has no column " + std::string(word(column)));
      return false;
    }
    trial.typed[column] = text;
    trial.skipped.reset(static_cast<std::size_t>(column));
  }
  trial.turned_to.reset();
  trial.typing.clear();
  const Values values = values_of(trial);
  const Findings known = rows_.read(values_of(*open_)).faults;
  for (const Finding& finding : rows_.read(values).faults) {
    if (!is_of_a_value(finding, values)) continue;
    if (std::any_of(known.begin(), known.end(),
                    [&](const Finding& old) { return is_same(old, finding); }))
      continue;
    open_->typing.clear();
    refuse(said(finding));
    return false;
  }
  remember();
  open_ = std::move(trial);
  return true;
}

void Charting::erase() {
  if (!open_) return refuse("no row is open");
  if (!open_->turned_to) {
    step_back();
    if (!fault_.empty()) return;
  }
  const Question question = *open_->turned_to;
  remember();
  for (const ChartColumn column : question) {
    if (open_->is_new) open_->typed.erase(column);
    if (!open_->is_new || !proposal(*open_, column).empty()) open_->typed[column] = "";
  }
}

void Charting::again() {
  const auto question = asked();
  if (!question) return refuse("nothing is asked");
  if (open_->place == 0) return refuse("there is no row before");
  const Values row = rows_.values(open_->place - 1);
  Answers answers;
  for (const ChartColumn column : *question)
    if (!at(row, column).empty()) answers.emplace_back(column, at(row, column));
  if (answers.empty()) return refuse("the row before has no " + plain(name_of(*question)));
  set(answers);
}

void Charting::next_quarter() {
  if (!open_) return refuse("no row is open");
  const auto now = whole_number(value(ChartColumn::quarter));
  set({{ChartColumn::quarter, std::to_string(now.value_or(0) + 1)}});
}

void Charting::end_here(const Press& press) {
  if (!open_) return refuse("no row is open");
  if (press.clip.empty()) return refuse("there is no film");
  set({{ChartColumn::end, seconds_text(press.at)}});
}

}  // namespace callfit::charting

#include <callfit/charting/charting.hpp>
#include <charting/key_words.hpp>

#include <fmt/format.h>

#include <utility>

namespace callfit::charting {

void Charting::amend(std::size_t row, const Answers& answers) {
  forget_last_key();
  if (!may_leave()) return;
  Values values = rows_.values(row);
  for (const auto& [column, text] : answers) at(values, column) = text;
  const auto read = rows_.read(values);
  if (!read.snap) return refuse(said(read.faults.front()));
  remember();
  let_wait();
  open_.reset();
  change_row({row, rows_.row_text(row), rows_.changed(row, values)});
}

void Charting::uphold(Upheld one) {
  forget_last_key();
  remember();
  auto upheld = upheld_;
  upheld.push_back(std::move(one));
  set_upheld(std::move(upheld));
}

}  // namespace callfit::charting

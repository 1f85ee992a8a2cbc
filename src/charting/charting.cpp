#include <callfit/charting/charting.hpp>
#include <charting/key_words.hpp>

#include <fmt/format.h>

#include <set>
#include <utility>

namespace callfit::charting {
namespace {

constexpr std::size_t longest_row_number = 7;

}  // namespace

Charting::Charting(ChartRows rows, KeyMap keys, KeptBeside beside)
    : rows_(std::move(rows)),
      keys_(std::move(keys)),
      waiting_(std::move(beside.waiting)),
      upheld_(std::move(beside.upheld)) {
  // A mark whose row was written is no longer waiting, though the desk was ended between the two.
  if (waiting_.empty()) return;
  std::set<std::pair<std::string, std::string>> charted;
  for (std::size_t row = 0; row < rows_.size(); ++row) {
    const Values values = rows_.values(row);
    charted.emplace(at(values, ChartColumn::clip), at(values, ChartColumn::start));
  }
  std::erase_if(waiting_, [&charted](const Mark& mark) {
    return charted.contains({mark.clip, mark.start});
  });
}

void Charting::forget_last_key() {
  fault_.clear();
  told_.clear();
  film_.reset();
}

void Charting::press(const Press& press) {
  forget_last_key();
  if (asks_row_) return takes_row_number(press.key);
  if (takes_text(press.key) || takes_digit(press.key)) return;
  const bool ends_number = open_ && !open_->typing.empty();
  if (!settles_number() || (ends_number && press.key == keys_.key(Command::skip))) return;
  if (takes_choice(press.key)) return;
  if (const auto meant = keys_.command_of(press.key)) return command(*meant, press);
  const auto question = asked();
  refuse(fmt::format("the key {} means nothing here; {}", press.key,
                     question ? "asked is " + plain(name_of(*question)) : "no row is open"));
}

void Charting::takes_row_number(const std::string& key) {
  if (is_digit(key) && row_number_.size() < longest_row_number)
    row_number_ += key;
  else if (key == keys_.key(Command::erase) && !row_number_.empty())
    row_number_.pop_back();
  else
    open_numbered();
}

void Charting::command(Command command, const Press& press) {
  switch (command) {
    case Command::next:
      return next(press);
    case Command::done:
      return done();
    case Command::end_here:
      return end_here(press);
    case Command::undo:
      return undo(done_, undone_);
    case Command::redo:
      return undo(undone_, done_);
    case Command::take_mine:
    case Command::take_theirs:
      return refuse("the key " + press.key + " is for settling where two charts differ");
    default:
      if (is_of_rows(command)) return row_command(command);
      if (!moves_film(command)) return column_command(command);  // whoever plays film moves it
  }
}

void Charting::column_command(Command command) {
  switch (command) {
    case Command::skip:
      return skip();
    case Command::column_before:
      return step_back();
    case Command::erase:
      return erase();
    case Command::spot:
      return turn_to({ChartColumn::yards_to_goal});
    case Command::place:
      return turn_to({ChartColumn::down});
    case Command::quarter:
      return next_quarter();
    case Command::game:
      return turn_to({ChartColumn::game});
    case Command::opponent:
      return turn_to({ChartColumn::opponent});
    case Command::note:
      return turn_to({ChartColumn::note});
    default:
      return again();
  }
}

void Charting::row_command(Command command) {
  switch (command) {
    case Command::row_before:
      return open_row_before();
    case Command::row_after:
      return open_row_after();
    case Command::row:
      return ask_row();
    case Command::waiting:
      return open_waiting();
    case Command::insert:
      return insert();
    default:
      return drop();
  }
}

}  // namespace callfit::charting

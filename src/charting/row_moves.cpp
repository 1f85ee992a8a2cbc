#include <callfit/charting/charting.hpp>
#include <charting/key_words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace callfit::charting {

bool Charting::is_untouched(const OpenRow& open) const {
  return std::all_of(open.typed.begin(), open.typed.end(), [&](const auto& one) {
    return open.is_new && (one.first == ChartColumn::clip || one.first == ChartColumn::start ||
                           one.first == ChartColumn::end);
  });
}

Mark Charting::mark_of(const OpenRow& open) const {
  const auto typed = [&](ChartColumn column) {
    const auto found = open.typed.find(column);
    return found == open.typed.end() ? std::string() : found->second;
  };
  return {typed(ChartColumn::clip), typed(ChartColumn::start), typed(ChartColumn::end)};
}

void Charting::start_new(const Press& press) {
  open_ = OpenRow{.place = rows_.size()};
  if (press.clip.empty()) return;
  if (!rows_.has(ChartColumn::start) || !rows_.has(ChartColumn::clip)) {
    told_ = "the chart has no columns clip and start: the time is not kept";
    return;
  }
  open_->typed[ChartColumn::clip] = press.clip;
  open_->typed[ChartColumn::start] = seconds_text(press.at);
}

void Charting::next(const Press& press) {
  if (!open_) {
    remember();
    start_new(press);
    return;
  }
  if (open_->is_new && is_untouched(*open_)) return mark_next(press);
  const bool was_new = open_->is_new, was_waiting = open_->was_waiting;
  if (!finish()) {
    if (was_new && press.is_playing) keep_time(press);
    return;
  }
  if (was_waiting) return waiting_.empty() ? void() : open_waiting();
  if (was_new && (press.is_playing || press.clip.empty())) start_new(press);
}

// Times first, details later.
void Charting::mark_next(const Press& press) {
  if (mark_of(*open_).start.empty()) return refuse("nothing is charted of this row yet");
  if (!press.is_playing)
    return refuse("the film stands: chart the snap, or let the film go on to the next");
  remember();
  let_wait();
  start_new(press);
  told_ = fmt::format("{} marked, to be charted later", waiting_.size());
}

// The film has gone on to the next snap while this row is not whole: its time is not lost.
void Charting::keep_time(const Press& press) {
  constexpr double same_press = 2;  // seconds
  if (press.clip.empty() || !rows_.has(ChartColumn::start) || !rows_.has(ChartColumn::clip)) return;
  const auto last = waiting_.empty() ? std::nullopt : seconds_in(waiting_.back().start);
  if (last && std::abs(*last - press.at) < same_press) return;
  remember();
  auto waiting = waiting_;
  waiting.push_back({press.clip, seconds_text(press.at), ""});
  set_waiting(std::move(waiting));
  told_ = "the time of the next snap is marked and waits";
}

void Charting::done() {
  if (!open_) return refuse("no row is open");
  finish();
}

bool Charting::finish() {
  const Values values = values_of(*open_);
  const auto read = rows_.read(values);
  if (!read.snap) {
    refuse_unfinished(read.faults.front());
    return false;
  }
  const OpenRow row = *open_;
  const bool ends_drive = row.is_new && is_end_of_drive(row.place, *read.snap);
  remember();
  open_.reset();
  if (row.is_new)
    change_row({row.place, std::nullopt, rows_.made(row.place, values)});
  else if (!row.typed.empty())
    change_row({row.place, rows_.row_text(row.place), rows_.changed(row.place, values)});
  if (ends_drive) ++drives_ended_;
  told_ = fmt::format("row {} of {}", row.place + 1, rows_.size());
  return true;
}

void Charting::refuse_unfinished(const Finding& first) {
  refuse("the row is not whole: " + said(first));
  if (const auto column = from_word<ChartColumn>(first.place.field))
    open_->turned_to = Question{*column};
}

// With the snap a drive ends, or the one before it had ended unseen.
bool Charting::is_end_of_drive(std::size_t place, const Snap& snap) const {
  if (!following(snap)) return true;
  return place > 0 && is_new_drive(rows_.snap(place - 1), snap) &&
         following(rows_.snap(place - 1)).has_value();
}

bool Charting::may_leave() {
  if (!is_being_typed()) return true;
  refuse("a row is open: finish it (" + keys_.key(Command::done) + ") or drop it (" +
         keys_.key(Command::drop) + ")");
  return false;
}

void Charting::open_row(std::size_t place) {
  if (!may_leave()) return;
  remember();
  let_wait();
  open_ = OpenRow{.place = place, .is_new = false};
  open_->turned_to = Question{ChartColumn::family};
  film_ = span();
}

// The time of an open row without details waits, to be charted later.
void Charting::let_wait() {
  if (!open_ || !open_->is_new || mark_of(*open_).start.empty()) return;
  auto waiting = waiting_;
  waiting.push_back(mark_of(*open_));
  set_waiting(std::move(waiting));
}

void Charting::open_row_before() {
  const std::size_t place = open_ ? open_->place : rows_.size();
  if (place == 0) return refuse("this is the first row");
  open_row(place - 1);
}

void Charting::open_row_after() {
  if (!open_ || open_->place + 1 >= rows_.size()) return refuse("this is the last row");
  open_row(open_->place + 1);
}

void Charting::ask_row() {
  if (!may_leave()) return;
  asks_row_ = true;
  row_number_.clear();
}

void Charting::insert() {
  if (!open_ || open_->is_new) return refuse("open the row that the new one comes before");
  if (!may_leave()) return;
  remember();
  open_ = OpenRow{.place = open_->place};
}

void Charting::open_numbered() {
  asks_row_ = false;
  const auto number = whole_number(row_number_);
  if (!number) return;
  if (*number < 1 || static_cast<std::size_t>(*number) > rows_.size())
    return refuse(fmt::format("there is no row {}; the chart has {}", row_number_, rows_.size()));
  open_row(static_cast<std::size_t>(*number) - 1);
}

void Charting::open_waiting() {
  if (!may_leave()) return;
  remember();
  let_wait();  // the last of them
  if (waiting_.empty()) {
    open_ = OpenRow{.place = rows_.size()};
    return;
  }
  auto waiting = waiting_;
  const Mark mark = waiting.front();
  waiting.erase(waiting.begin());
  set_waiting(std::move(waiting));
  open_ = OpenRow{.place = rows_.size(), .was_waiting = true};
  open_->typed = {{ChartColumn::clip, mark.clip}, {ChartColumn::start, mark.start}};
  if (!mark.end.empty()) open_->typed[ChartColumn::end] = mark.end;
  film_ = span();
}

void Charting::drop() {
  if (!open_) return refuse("no row is open");
  remember();
  const OpenRow row = *std::exchange(open_, std::nullopt);
  if (row.is_new) {
    told_ = "dropped";
  } else if (!row.typed.empty()) {
    open_ = OpenRow{.place = row.place, .is_new = false};
    told_ = "changes dropped";
  } else {
    change_row({row.place, rows_.row_text(row.place), std::nullopt});
    told_ = fmt::format("row {} is out of the chart; {} takes it back", row.place + 1,
                        keys_.key(Command::undo));
  }
}

}  // namespace callfit::charting

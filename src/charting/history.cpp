#include <callfit/charting/charting.hpp>

#include <utility>

namespace callfit::charting {

void Charting::remember() {
  done_.push_back({open_, std::nullopt, std::nullopt, std::nullopt});
  if (done_.back().open) done_.back().open->typing.clear();
  undone_.clear();
}

void Charting::change_row(RowChange change) {
  apply(change);
  done_.back().change = std::move(change);
}

void Charting::apply(const RowChange& change) {
  if (!change.before)
    rows_.insert(change.place, *change.after);
  else if (!change.after)
    rows_.erase(change.place);
  else
    rows_.replace(change.place, *change.after);
  ++revision_;
}

void Charting::set_waiting(std::vector<Mark> waiting) {
  if (!done_.back().waiting) done_.back().waiting = waiting_;
  waiting_ = std::move(waiting);
  ++revision_;
}

void Charting::set_upheld(std::vector<Upheld> upheld) {
  done_.back().upheld = std::exchange(upheld_, std::move(upheld));
  ++revision_;
}

void Charting::undo(std::vector<Moment>& from, std::vector<Moment>& to) {
  if (from.empty()) return refuse("there is nothing more to take back or bring back");
  Moment moment = std::move(from.back());
  from.pop_back();
  Moment back{open_, std::nullopt, std::nullopt, std::nullopt};
  if (moment.change) {
    std::swap(moment.change->before, moment.change->after);
    apply(*moment.change);
    back.change = std::move(moment.change);
  }
  if (moment.waiting) {
    back.waiting = std::exchange(waiting_, std::move(*moment.waiting));
    ++revision_;
  }
  if (moment.upheld) {
    back.upheld = std::exchange(upheld_, std::move(*moment.upheld));
    ++revision_;
  }
  open_ = std::move(moment.open);
  to.push_back(std::move(back));
}

void Charting::take_back() {
  std::vector<Moment> nowhere;
  if (!done_.empty()) undo(done_, nowhere);
}

void Charting::forget_history() {
  done_.clear();
  undone_.clear();
}

void Charting::add_film_columns() {
  rows_ = ChartRows(rows_.text_with({ChartColumn::clip, ChartColumn::start, ChartColumn::end}),
                    rows_.source(), rows_.words());
  forget_history();  // rows of before are of another width
  ++revision_;
}

}  // namespace callfit::charting

#include <callfit/charting/settling.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace callfit::charting {
namespace {

std::pair<std::size_t, ChartColumn> place_in_mine(const Dispute& one) {
  return {one.row, one.column};
}

// From which the one at or behind a place is the next.
std::size_t index_from(const std::vector<Dispute>& all,
                       const std::pair<std::size_t, ChartColumn>& from) {
  const auto next = std::find_if(
      all.begin(), all.end(), [&from](const Dispute& one) { return place_in_mine(one) >= from; });
  return next == all.end() ? 0 : static_cast<std::size_t>(next - all.begin());
}

}  // namespace

std::vector<Dispute> Settling::open(const Charting& mine) const {
  return open_disputes(mine.rows(), theirs_, mine.upheld());
}

std::optional<Dispute> Settling::asked(const Charting& mine) const {
  const auto all = open(mine);
  if (all.empty()) return std::nullopt;
  return all[index_from(all, from_)];
}

void Settling::press(const std::string& key, Charting& mine) {
  fault_.clear();
  const auto meant = mine.keys().command_of(key);
  switch (meant.value_or(Command::next)) {
    case Command::take_mine:
    case Command::take_theirs:
      return settle(*meant, mine);
    case Command::skip:
      return pass(1, mine);
    case Command::column_before:
      return pass(-1, mine);
    case Command::undo:
    case Command::redo:
      return go_back(key, mine);
    default:
      fault_ = fmt::format("the key {} means nothing here", key);
  }
}

void Settling::settle(Command command, Charting& mine) {
  const auto asked = this->asked(mine);
  if (!asked) {
    fault_ = "nothing is left to settle";
    return;
  }
  from_ = place_in_mine(*asked);
  if (command == Command::take_theirs) return take_theirs(*asked, mine);
  mine.uphold({theirs_.snap(asked->their_row).line, asked->column, asked->mine, asked->theirs});
  fault_ = mine.fault();
}

void Settling::take_theirs(const Dispute& asked, Charting& mine) {
  const Taking taken = taking(mine.rows(), theirs_, asked);
  fault_ = taken.fault;
  if (!fault_.empty()) return;
  mine.amend(asked.row, taken.values);
  fault_ = mine.fault();
}

void Settling::pass(int steps, const Charting& mine) {
  const auto all = open(mine);
  if (all.empty()) return;
  const std::size_t count = all.size();
  const std::size_t now = index_from(all, from_);
  from_ = place_in_mine(all[(now + (steps > 0 ? 1 : count - 1)) % count]);
}

// To what is open again, or was settled again.
void Settling::go_back(const std::string& key, Charting& mine) {
  const auto before = open(mine);
  mine.press({key, "", 0, false});
  fault_ = mine.fault();
  for (const Dispute& one : open(mine))
    if (std::find(before.begin(), before.end(), one) == before.end()) {
      from_ = place_in_mine(one);
      return;
    }
}

}  // namespace callfit::charting

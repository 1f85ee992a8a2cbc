#include <base/vector_loops.hpp>
#include <drive/flight.hpp>

#include <algorithm>

namespace callfit::drive {

void Flight::play(Waiting waiting) {
  flying_ = static_cast<std::size_t>(std::min<std::uint64_t>(size, waiting.left()));
  for (std::size_t i = 0; i < flying_; ++i) put(i, waiting.next());
  while (flying_ > 0) {
    draw_words();
    snap();
    list_by_kind();
    follow_all(std::make_index_sequence<static_cast<std::size_t>(Kind::end)>{});
    finish<Kind::end>(waiting);
    finish<Kind::end_on_play>(waiting);
    close_gaps();
  }
}

void Flight::draw_words() {
  for (std::size_t i = 0; i < flying_; i += block_words) {
    const Block block = words_.next();
    std::copy(block.begin(), block.end(), &draws_[i]);
  }
}

// A snap looks things up (one load a drive) and computes (many drives in one register) by turns, a
// chunk of drives at a time, so that what one loop leaves is still at hand for the next.
void Flight::snap() {
  const AliasColumn* columns = sampler_.columns.data();
  for (std::size_t first = 0; first < flying_; first += chunk) {
    now_.count = std::min(chunk, flying_ - first);
    for (std::size_t i = 0; i < now_.count; ++i) now_.table[i] = tables_[drives_.place[first + i]];
    aim(now_, &draws_[first]);
    for (std::size_t i = 0; i < now_.count; ++i) now_.column[i] = columns[now_.column_index[i]];
    land(now_, drives_, first, static_cast<std::uint32_t>(sampler_.plan->first_gain));
  }
}

CALLFIT_WIDE_VECTORS
void Flight::aim(Chunk& now, const std::uint32_t* draws) {
  CALLFIT_INDEPENDENT_TURNS
  for (std::size_t i = 0; i < now.count; ++i) {
    const TableRef table = now.table[i];
    now.column_index[i] = table.first_column() + column_of(table.bits(), draws[i]);
    now.within[i] = within_column(table.bits(), draws[i]);
  }
}

// What is no gain is coded as one far beyond the field; nothing changes then but the outcome.
CALLFIT_WIDE_VECTORS
void Flight::land(const Chunk& now, Drives& drives, std::size_t first, std::uint32_t first_gain) {
  CALLFIT_INDEPENDENT_TURNS
  for (std::size_t i = 0; i < now.count; ++i) {
    const std::size_t at = first + i;
    const Outcome outcome = pick_within(now.column[i], now.within[i]);
    const std::uint32_t before = drives.own[at];
    const std::uint32_t gain = outcome + first_gain;
    SeriesLine line = SeriesLine::unpack(drives.line[at]);
    // A gain that just reaches the line is looked up once more: it may be spotted short.
    const std::uint32_t at_line = one_if_less(before + gain - 1 - line.last_short(), 1);
    const std::uint32_t in_field = one_if_less(before + gain - 1, last_spot) & (1 - at_line);
    const std::uint32_t own = before + (gain & mask(in_field));
    const std::uint32_t fresh = one_if_less(line.last_short(), own);
    line.next_down_if(in_field);
    line.become_if(fresh, SeriesLine::fresh_at(own));
    drives.place[at] = line.place(own);
    drives.line[at] = line.packed();
    drives.own[at] = own;
    drives.outcome[at] = outcome;
    drives.plays[at] += in_field;
    drives.first_downs[at] += fresh;
    drives.in_field[at] = in_field;
  }
}

// A branch on what was drawn would be guessed wrong: every drive is written to the list of those
// left, and only counted if it is one of them.
void Flight::list_by_kind() {
  DriveList left;
  for (std::size_t i = 0; i < flying_; ++i) {
    left.drive[left.count] = static_cast<std::uint16_t>(i);
    left.count += 1 - drives_.in_field[i];
  }
  for (DriveList& list : by_kind_) list.count = 0;
  for (const std::uint16_t i : left)
    by_kind_[static_cast<std::size_t>(kind_of(static_cast<Outcome>(drives_.outcome[i])))].add(i);
}

template <std::size_t... kinds>
void Flight::follow_all(std::index_sequence<kinds...> /*below_ends*/) {
  (follow<static_cast<Kind>(kinds)>(), ...);
}

template <Kind kind>
void Flight::follow() {
  for (const std::uint16_t i : by_kind_[static_cast<std::size_t>(kind)]) {
    DriveNow drive = get(i);
    const bool goes_on = resolver_.resolve<kind>(drive);
    put(i, drive);
    if (!goes_on) by_kind_[static_cast<std::size_t>(kind_of(drive.outcome))].add(i);
  }
}

template <Kind kind>
void Flight::finish(Waiting& waiting) {
  for (const std::uint16_t i : by_kind_[static_cast<std::size_t>(kind)]) {
    const int value = value_of(static_cast<Outcome>(drives_.outcome[i]));
    tally_.add({static_cast<DriveResult>(first_part(value)), static_cast<Slot>(second_part(value)),
                drives_.first_downs[i], drives_.plays[i] + (kind == Kind::end_on_play ? 1U : 0U)});
    if (waiting.left() > 0)
      put(i, waiting.next());
    else
      gaps_.add(i);
  }
}

// From the last gap to the first, so that the last drive in flight goes on.
void Flight::close_gaps() {
  std::sort(gaps_.drive.begin(), gaps_.drive.begin() + static_cast<std::ptrdiff_t>(gaps_.count));
  while (gaps_.count > 0) put(gaps_.drive[--gaps_.count], get(--flying_));
}

DriveNow Flight::get(std::size_t i) const {
  return {drives_.place[i], SeriesLine::unpack(drives_.line[i]),
          drives_.own[i],   static_cast<Outcome>(drives_.outcome[i]),
          drives_.plays[i], drives_.first_downs[i]};
}

void Flight::put(std::size_t i, const DriveNow& drive) {
  drives_.place[i] = drive.place;
  drives_.line[i] = drive.line.packed();
  drives_.own[i] = drive.own;
  drives_.outcome[i] = drive.outcome;
  drives_.plays[i] = drive.plays;
  drives_.first_downs[i] = drive.first_downs;
}

}  // namespace callfit::drive

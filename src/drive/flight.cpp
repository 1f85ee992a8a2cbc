#include <base/vector_loops.hpp>
#include <drive/flight.hpp>

#include <algorithm>

namespace callfit::drive {

void Flight::start(std::uint64_t id, const DriveNow& at) {
  ids_[flying_] = id;
  put(flying_++, at);
  if (flying_ == size) play();
}

void Flight::play() {
  const TableRef* tables = sampler_.classes[quality_].data();
  for (std::uint64_t step = 0; flying_ > 0; ++step) {
    const std::size_t word = step % block_words;
    if (word == 0) draw_words(step / block_words);
    snap(tables, words_[word]);
    follow();
    clear(word + 1);
  }
}

void Flight::draw_words(std::uint64_t index) {
  for (std::size_t i = 0; i < flying_; ++i) {
    const Block block = draw_block(seed_, Use::steps, ids_[i], index);
    for (std::size_t w = 0; w < block_words; ++w) words_[w][i] = block[w];
  }
}

// A snap looks things up (one load a drive) and computes (many drives in one register) by turns, a
// chunk of drives at a time, so that what one loop leaves is still at hand for the next.
void Flight::snap(const TableRef* tables, const PerDrive& draws) {
  const AliasColumn* columns = sampler_.columns.data();
  for (std::size_t first = 0; first < flying_; first += chunk) {
    now_.count = std::min(chunk, flying_ - first);
    for (std::size_t i = 0; i < now_.count; ++i) now_.table[i] = tables[drives_.place[first + i]];
    aim(now_, &draws[first]);
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
    const std::uint32_t in_field = one_if_less(before + gain - 1, last_spot);
    const std::uint32_t own = before + (gain & mask(in_field));
    SeriesLine line = SeriesLine::unpack(drives.line[at]);
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

void Flight::follow() {
  std::array<std::uint16_t, size> left;
  std::size_t count = 0;
  ended_count_ = 0;
  for (std::size_t i = 0; i < flying_; ++i) {
    const std::uint32_t out = 1 - drives_.in_field[i];
    const std::uint32_t end = is_end(static_cast<Outcome>(drives_.outcome[i])) ? 1 : 0;
    left[count] = static_cast<std::uint16_t>(i);
    count += out & ~end;
    ended_[ended_count_] = static_cast<std::uint16_t>(i);
    ended_count_ += end;
  }
  for (std::size_t l = 0; l < count; ++l) {
    const std::size_t i = left[l];
    DriveNow drive{drives_.place[i], SeriesLine::unpack(drives_.line[i]),
                   drives_.own[i],   static_cast<Outcome>(drives_.outcome[i]),
                   drives_.plays[i], drives_.first_downs[i]};
    const bool goes_on = resolver_.resolve(drive);
    put(i, drive);
    ended_[ended_count_] = left[l];
    ended_count_ += goes_on ? 0 : 1;
  }
}

void Flight::clear(std::size_t next_word) {
  for (std::size_t e = 0; e < ended_count_; ++e) {
    const std::size_t i = ended_[e];
    const auto outcome = static_cast<Outcome>(drives_.outcome[i]);
    const int value = value_of(outcome);
    tally_.add({static_cast<DriveResult>(first_part(value)), static_cast<Slot>(second_part(value)),
                drives_.first_downs[i],
                drives_.plays[i] + (kind_of(outcome) == Kind::end_on_play ? 1U : 0U)});
    drives_.in_field[i] = over;
  }
  // The gaps are filled by the last drives that go on.
  const std::size_t left = flying_ - ended_count_;
  for (std::size_t e = 0; e < ended_count_; ++e) {
    if (ended_[e] >= left) continue;
    do --flying_;
    while (drives_.in_field[flying_] == over);
    copy(flying_, ended_[e], next_word);
  }
  flying_ = left;
}

void Flight::put(std::size_t i, const DriveNow& drive) {
  drives_.place[i] = drive.place;
  drives_.line[i] = drive.line.packed();
  drives_.own[i] = drive.own;
  drives_.outcome[i] = drive.outcome;
  drives_.plays[i] = drive.plays;
  drives_.first_downs[i] = drive.first_downs;
}

void Flight::copy(std::size_t from, std::size_t to, std::size_t next_word) {
  ids_[to] = ids_[from];
  for (PerDrive* values :
       {&drives_.place, &drives_.line, &drives_.own, &drives_.plays, &drives_.first_downs})
    (*values)[to] = (*values)[from];
  for (std::size_t w = next_word; w < block_words; ++w) words_[w][to] = words_[w][from];
}

}  // namespace callfit::drive

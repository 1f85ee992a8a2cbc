// Drives of one quality class that go in step. At each step every drive is given a fresh word,
// looks up its table, and is down in the field or not; no branch depends on what was drawn, so
// compilers put many drives into one vector register. Drives that are not down in the field are
// listed by the kind of outcome and resolved kind by kind; where one ends the next one starts.
#pragma once

#include <drive/resolver.hpp>
#include <drive/sampler.hpp>
#include <drive/tally.hpp>
#include <drive/words.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>

namespace callfit::drive {

/// Drives that have not started yet. They start in the order of their spots, so that drives in
/// flight stand near each other, and what they look up lies near the processor.
class Waiting {
 public:
  /// `count[i]` drives start at `start_at[i]`.
  Waiting(std::span<const DriveNow> start_at, std::span<const std::uint64_t> count)
      : start_at_(start_at), count_(count), here_(count[0]) {
    for (const std::uint64_t each : count) left_ += each;
  }

  std::uint64_t left() const { return left_; }
  /// One of those left.
  const DriveNow& next() {
    while (here_ == 0) here_ = count_[++place_];
    --here_;
    --left_;
    return start_at_[place_];
  }

 private:
  std::span<const DriveNow> start_at_;
  std::span<const std::uint64_t> count_;
  std::size_t place_ = 0;
  std::uint64_t here_;
  std::uint64_t left_ = 0;
};

class Flight {
 public:
  static constexpr std::size_t size = 512;

  /// Of drives of the class `quality` that take their steps from `words`; adds ends to `tally`.
  Flight(const Sampler& sampler, std::size_t quality, const Words& words, Tally& tally)
      : sampler_(sampler),
        tables_(sampler.classes[quality].data()),
        words_(words),
        resolver_(sampler),
        tally_(tally) {}

  /// Plays drives from their starts to their ends.
  void play(Waiting waiting);

 private:
  /// By drive.
  using PerDrive = std::array<std::uint32_t, size>;
  struct Drives {
    PerDrive place, line, own, plays, first_downs;
    PerDrive outcome, in_field;  ///< of the last snap
  };
  /// Drives by their places in the flight.
  struct DriveList {
    std::array<std::uint16_t, size> drive;
    std::size_t count = 0;

    void add(std::size_t i) { drive[count++] = static_cast<std::uint16_t>(i); }
    auto begin() const { return drive.begin(); }
    auto end() const { return drive.begin() + static_cast<std::ptrdiff_t>(count); }
  };

  /// What drives next to each other look up.
  static constexpr std::size_t chunk = 128;
  struct Chunk {
    std::size_t count = 0;
    std::array<TableRef, chunk> table;
    std::array<std::uint32_t, chunk> column_index, within;
    std::array<AliasColumn, chunk> column;
  };

  void draw_words();
  void snap();
  static void aim(Chunk& now, const std::uint32_t* draws);
  static void land(const Chunk& now, Drives& drives, std::size_t first, std::uint32_t first_gain);
  void list_by_kind();
  template <std::size_t... kinds>
  void follow_all(std::index_sequence<kinds...> below_ends);
  template <Kind kind>
  void follow();
  template <Kind kind>
  void finish(Waiting& waiting);
  void close_gaps();
  DriveNow get(std::size_t i) const;
  void put(std::size_t i, const DriveNow& drive);

  const Sampler& sampler_;
  const TableRef* tables_;
  Words words_;
  Resolver resolver_;
  Tally& tally_;
  std::size_t flying_ = 0;
  Drives drives_;
  Chunk now_;
  PerDrive draws_;
  std::array<DriveList, kind_count> by_kind_;  ///< drives that are not down in the field
  DriveList gaps_;                             ///< where a drive ended and none was waiting
};

}  // namespace callfit::drive

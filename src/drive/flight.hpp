// Drives of one quality class that go in step. Each takes its next word, looks up its table, and is
// down in the field or not; no branch depends on what was drawn, so compilers put many drives into
// one vector register. Drives that are not down in the field are resolved one by one.
#pragma once

#include <drive/resolver.hpp>
#include <drive/sampler.hpp>
#include <drive/tally.hpp>
#include <drive/words.hpp>

#include <array>
#include <cstddef>
#include <cstdint>

namespace callfit::drive {

class Flight {
 public:
  static constexpr std::size_t size = 512;

  /// Of drives of the class `quality`, whose ends are added to `tally`.
  Flight(const Sampler& sampler, std::size_t quality, std::uint64_t seed, Tally& tally)
      : sampler_(sampler), quality_(quality), seed_(seed), resolver_(sampler), tally_(tally) {}

  /// Adds drive number `id`; plays all if that makes the flight full.
  void start(std::uint64_t id, const DriveNow& at);
  /// Plays all drives to their ends.
  void play();

 private:
  void draw_words(std::uint64_t index);
  /// Resolves what is not down in the field; finds the drives that ended.
  void follow();
  /// Takes these out. Drives that go on keep their words from `next_word` on.
  void clear(std::size_t next_word);
  void put(std::size_t i, const DriveNow& drive);
  void copy(std::size_t from, std::size_t to, std::size_t next_word);

  /// By drive; the padding keeps rows of words apart in the cache.
  using PerDrive = std::array<std::uint32_t, size + 16>;
  struct Drives {
    PerDrive place, line, own, plays, first_downs;
    PerDrive outcome, in_field;  ///< of the last snap
  };
  static constexpr std::uint32_t over = 2;  ///< in_field of a drive that has ended

  /// What drives next to each other look up.
  static constexpr std::size_t chunk = 128;
  struct Chunk {
    std::size_t count = 0;
    std::array<TableRef, chunk> table;
    std::array<std::uint32_t, chunk> column_index, within;
    std::array<AliasColumn, chunk> column;
  };

  void snap(const TableRef* tables, const PerDrive& draws);
  static void aim(Chunk& now, const std::uint32_t* draws);
  static void land(const Chunk& now, Drives& drives, std::size_t first, std::uint32_t first_gain);

  const Sampler& sampler_;
  std::size_t quality_;
  std::uint64_t seed_;
  Resolver resolver_;
  Tally& tally_;
  std::size_t flying_ = 0;
  Drives drives_;
  Chunk now_;
  std::array<PerDrive, block_words> words_;
  std::array<std::uint64_t, size> ids_;
  std::array<std::uint16_t, size> ended_;
  std::size_t ended_count_ = 0;
};

}  // namespace callfit::drive

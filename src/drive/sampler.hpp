// The outcome table laid out for drawing: what the Monte Carlo engine reads in its loop.
#pragma once

#include <drive/alias.hpp>
#include <drive/exact.hpp>
#include <drive/table.hpp>

#include <array>
#include <vector>

namespace callfit::drive {

/// Outcomes of a snap: gains are coded as gain - Plan::first_gain, below first_special. On fourth
/// down the snap only tells what is chosen.
inline constexpr Outcome first_special = 0xff00;
inline constexpr Outcome scored = 0xff00, fumbled = 0xff01, intercepted = 0xff02,
                         penalised = 0xff03, half_over = 0xff04, goes = 0xff05, punts = 0xff06,
                         kicks = 0xff07;

/// Outcomes of a penalty: kind * 128 + own yard line.
enum class PenaltyKind { replay, next_down, first_down };
inline constexpr int penalty_kind_shift = 7;
constexpr Outcome penalty_outcome(PenaltyKind kind, int own_yard) {
  return static_cast<Outcome>((static_cast<int>(kind) << penalty_kind_shift) + own_yard);
}

/// What a state looks up: the table of its snap, whose columns start at first_column.
struct StateEntry {
  std::uint32_t first_column = 0;
  std::uint16_t slice = 0;
  std::uint8_t bits = 0;
  std::uint8_t penalty_set = 0;
};

struct ClassSampler {
  std::vector<AliasColumn> columns;  ///< tables of snaps, one after the other
  std::vector<StateEntry> states;    ///< by state_index
  std::vector<AliasTable> play;      ///< a play on fourth down, by slice
  std::vector<AliasTable> fumble;    ///< gain of a lost fumble, by slice
  std::vector<AliasTable> depth;     ///< depth + depth_offset of an interception, by context
};

struct Sampler {
  AliasTable quality;
  std::vector<std::uint32_t> context;  ///< by slice
  std::vector<ClassSampler> classes;
  std::vector<std::array<AliasTable, field_length>> penalty;        ///< [set][own yard]
  std::array<AliasTable, field_length> punt, interception, fumble;  ///< slots, by yards to goal
  std::array<std::uint32_t, field_length> kick_made{};
  std::array<Slot, field_length> missed_kick{};
  int first_gain = 0;
};

inline constexpr int depth_offset = 128;

Sampler make_sampler(const Table& table);

}  // namespace callfit::drive

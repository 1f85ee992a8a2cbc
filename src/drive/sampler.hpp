// The outcome table laid out for drawing: what the Monte Carlo engine reads in its loop.
//
// Everything a drive draws, from a snap's gain to the spot of a return, is one look at one table.
// So each drive takes one random word a step, and any number of drives can go in step.
#pragma once

#include <drive/alias.hpp>
#include <drive/exact.hpp>
#include <drive/table.hpp>

#include <array>
#include <cstdint>
#include <memory>
#include <vector>

namespace callfit::drive {

/// What an outcome means; its value is given in brackets.
enum class Kind : std::uint16_t {
  gain,          ///< of a play that keeps the ball [gain - Plan::first_gain]
  lost_gain,     ///< of a play whose fumble is lost [likewise]
  depth,         ///< of an interception [depth + depth_offset]
  move,          ///< of a penalty [(PenaltyKind, flagged) * 128 + own yard line]
  out_of_downs,  ///< the ball goes over where it lies
  reached,       ///< the line, by a gain that just reaches it
  pulled_back,   ///< a yard short of the line after such a gain
  kept_out,      ///< of the own goal: on the own 1 after a gain that ends behind it
  go,            ///< for it on fourth down; this and what follows leads to another table
  penalty,
  fumble,
  interception,
  end,          ///< of the drive, without a play [DriveResult * 128 + slot]
  end_on_play,  ///< of the drive, by a play [likewise]; these two are the last
};
inline constexpr std::size_t kind_count = static_cast<std::size_t>(Kind::end_on_play) + 1;
enum class PenaltyKind : std::uint16_t { replay, next_down, first_down };
inline constexpr int with_play_flag = 4;  ///< set on a PenaltyKind: a play that counts went before

inline constexpr int kind_shift = 12;
inline constexpr int part_shift = 7;  ///< of the two-part values of moves and ends
inline constexpr int depth_offset = 128;

constexpr Outcome outcome_of(Kind kind, int value = 0) {
  return static_cast<Outcome>((static_cast<int>(kind) << kind_shift) + value);
}
constexpr Outcome end_outcome(Kind kind, DriveResult how, Slot where) {
  return outcome_of(kind, (static_cast<int>(how) << part_shift) + static_cast<int>(where));
}
inline constexpr int largest_value = (1 << kind_shift) - 1;
constexpr Kind kind_of(Outcome outcome) { return static_cast<Kind>(outcome >> kind_shift); }
constexpr int value_of(Outcome outcome) { return outcome & largest_value; }
constexpr int first_part(int value) { return value >> part_shift; }
constexpr int second_part(int value) { return value & ((1 << part_shift) - 1); }
static_assert(slot_count <= std::size_t{1} << part_shift);

/// Where the columns of an alias table lie among all of them.
class TableRef {
 public:
  static constexpr int bits_width = 5;  ///< rest: the first column
  static constexpr std::size_t most_columns = (std::size_t{1} << (32 - bits_width)) - 1;

  TableRef() = default;
  TableRef(std::size_t first_column, int bits)
      : packed_(static_cast<std::uint32_t>(first_column << bits_width) |
                static_cast<std::uint32_t>(bits)) {}

  std::uint32_t first_column() const { return packed_ >> bits_width; }
  int bits() const { return static_cast<int>(packed_ & ((1U << bits_width) - 1)); }

 private:
  std::uint32_t packed_ = 0;
};

/// The places of a class's tables: snaps by state_index, then those that need no line to gain.
struct Places {
  std::uint32_t out_of_downs = state_count;  ///< as a fifth down, by place_index
  std::uint32_t go = 0;                      ///< a play on fourth down, by slice
  std::uint32_t lost_gain = 0;               ///< by slice
  std::uint32_t depth = 0;                   ///< by context
  std::uint32_t penalty = 0;                 ///< by penalty set, then own yard line (0 to 99)
  std::uint32_t interception = 0;            ///< by the catch's yards to goal (0 to 99)
  std::uint32_t fumble = 0;                  ///< by the spot's yards to goal (0 to 99)
  std::uint32_t at_the_line = 0;             ///< where a gain that just reaches it is spotted
  std::uint32_t own_goal = 0;                ///< behind it, by the snap's yards to goal (0 to 99)
};

struct Sampler {
  std::shared_ptr<const Plan> plan;
  std::vector<AliasColumn> columns;            ///< of all tables, one after the other
  std::vector<std::vector<TableRef>> classes;  ///< [class][place]
  Places places;
};

Sampler make_sampler(const Table& table);

inline constexpr std::size_t most_classes = std::size_t{1} << (16 - part_shift);

/// Quality class and start of a drive in one draw [class * 128 + yards to goal], the start from
/// shares by yards to goal, or always 0 where these are empty.
AliasTable make_starts(const Plan& plan, const std::vector<double>& start_share);

}  // namespace callfit::drive

// What a drive can end with and where the other team then stands.
#pragma once

#include <callfit/drive/drive.hpp>
#include <callfit/setting/setting.hpp>

#include <array>
#include <cstddef>
#include <vector>

namespace callfit::drive {

/// What follows a drive. 1 to 99: the opponent's own yard line where he takes over.
using Slot = std::size_t;
inline constexpr Slot kickoff_slot = 0;         ///< we kick off after scoring
inline constexpr Slot return_score_slot = 100;  ///< the opponent scored a touchdown, he kicks off
inline constexpr Slot safety_slot = 101;        ///< we kick free after a safety
inline constexpr Slot half_slot = 102;          ///< the half is over
inline constexpr std::size_t slot_count = 103;

/// Where the opponent takes over: shares of slots that sum to 1.
using Takeover = std::array<double, slot_count>;

/// Takeovers of one setting. Index 0 of the arrays by yards is used as said.
struct Endings {
  std::array<Takeover, 100> punt{};          ///< by yards_to_goal, 1 to 99
  std::array<Takeover, 100> interception{};  ///< by the catch's yards_to_goal; 0: in the end zone
  std::array<Takeover, 100> fumble{};        ///< by the spot's yards_to_goal, 1 to 99
  std::array<Slot, 100> missed_kick{};       ///< by yards_to_goal of the line, 1 to 99
  std::array<double, 100> kick_made{};       ///< chance of the field goal by yards_to_goal
};

Endings make_endings(const Setting& setting);

/// A quantity that the engines add up: what each ending, new series and play is worth.
struct Column {
  std::array<double, drive_result_count> result{};
  std::array<double, slot_count> slot{};
  double first_down = 0;
  double play = 0;

  double ending(DriveResult how, Slot where) const {
    return result[static_cast<std::size_t>(how)] + slot[where];
  }
  double expected(DriveResult how, const Takeover& where) const;
};

Column points_column(const GameRules& rules);
Column net_column(const GameRules& rules, const NetValues& net);
Column share_column(DriveResult result);
Column first_downs_column();
Column plays_column();
Column slot_column(Slot slot);

}  // namespace callfit::drive

// The columns of a chart, by name.
#pragma once

#include <callfit/base/names.hpp>

#include <array>
#include <bitset>
#include <cstddef>
#include <string_view>

namespace callfit {

/// docs/chart.md defines each one. The first eight are needed, the rest optional.
enum class ChartColumn {
  game,
  level,
  down,
  to_go,
  yards_to_goal,
  family,
  result,
  yards,
  opponent,
  quarter,
  shell,
  platform,
  pressure,
  air_yards,
  lane,
  on_time,
  catchable,
  yac,
  evaded,
  fumble_lost,
  note,
  snap_id,
  season,
  team,
  clip,
  start,
  end
};
inline constexpr std::size_t column_count = 27;
inline constexpr std::size_t needed_column_count = 8;

template <>
inline constexpr auto enum_words<ChartColumn> = std::to_array<std::string_view>(
    {"game",    "level",    "down",      "to_go", "yards_to_goal", "family",      "result",
     "yards",   "opponent", "quarter",   "shell", "platform",      "pressure",    "air_yards",
     "lane",    "on_time",  "catchable", "yac",   "evaded",        "fumble_lost", "note",
     "snap_id", "season",   "team",      "clip",  "start",         "end"});

/// A set of columns, indexed by ChartColumn.
using ColumnSet = std::bitset<column_count>;

}  // namespace callfit

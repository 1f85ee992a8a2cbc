// The rates that a chart supports: what each one counts, and under which condition.
#pragma once

#include <callfit/base/names.hpp>
#include <callfit/chart/snap.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace callfit {

/// Shares in [0, 1], each counted over its own trials (see `trial`).
enum class Rate {
  sack,          ///< per dropback
  scramble,      ///< per dropback
  completion,    ///< per throw
  interception,  ///< per throw
  on_time,       ///< per throw where charted
  catchable,     ///< per throw where charted
  pressured,     ///< per dropback where charted
  success,       ///< per snap: enough of the distance (SuccessRule)
  explosive,     ///< per snap: a long gain (SuccessRule)
  fumble,        ///< lost, per snap
  evaded,        ///< per touch where charted: at least one defender made to miss
};
inline constexpr std::size_t rate_count = 11;

template <>
inline constexpr auto enum_words<Rate> = std::to_array<std::string_view>(
    {"sack", "scramble", "completion", "interception", "on_time", "catchable", "pressured",
     "success", "explosive", "fumble", "evaded"});

/// The rates that decide how a play ends; the others describe it.
inline constexpr std::array played_rates{Rate::sack, Rate::scramble, Rate::completion,
                                         Rate::interception, Rate::fumble};

/// A condition under which a rate can be looked at; the cells of one condition exclude each other.
enum class Cell {
  one_high,
  two_high,
  none_high,  // shell, in the order of enum Shell
  pocket,
  moving,  // platform
  clean,
  pressure,  // pressure charted no / yes
  left,
  middle,
  right,  // lane
  short_throw,
  intermediate_throw,
  deep_throw,  // air yards below 10, 10 to 19, 20 and more
};
inline constexpr std::size_t cell_count = 13;

template <>
inline constexpr auto enum_words<Cell> = std::to_array<std::string_view>(
    {"one_high", "two_high", "none_high", "pocket", "moving", "clean", "pressure", "left", "middle",
     "right", "short", "intermediate", "deep"});

inline constexpr int intermediate_from = 10;  ///< air yards; common practice, no source
inline constexpr int deep_from = 20;          ///< air yards; common practice, no source

constexpr Cell cell_of(Shell shell) { return static_cast<Cell>(shell); }

/// Whether the snap was charted to lie in the cell; false when the condition is blank.
bool in_cell(const Snap& snap, Cell cell);

/// Shares of the distance that make a snap a success, by down, and the gains that make it
/// explosive. Values come from the setting.
struct SuccessRule {
  std::array<double, 4> share_of_to_go{0.4, 0.6, 1.0, 1.0};
  int explosive_pass = 20;  ///< yards
  int explosive_run = 12;   ///< yards
};

/// nullopt when the snap is no trial of the rate (not charted, or not that kind of play);
/// else whether it counts. A no_play is a trial of nothing.
std::optional<bool> trial(const Snap& snap, Rate rate, const SuccessRule& rule);

/// What a scheme can demand: a rate, or a mean in yards.
enum class Measure {
  sack,
  scramble,
  completion,
  interception,
  on_time,
  catchable,
  pressured,
  success,
  explosive,
  fumble,
  evaded,
  yards_after_catch,  ///< mean yards per completion
  run_gain,           ///< mean yards per carry of a run family
};
inline constexpr std::size_t measure_count = rate_count + 2;

template <>
inline constexpr auto enum_words<Measure> = std::to_array<std::string_view>(
    {"sack", "scramble", "completion", "interception", "on_time", "catchable", "pressured",
     "success", "explosive", "fumble", "evaded", "yards_after_catch", "run_gain"});

constexpr std::optional<Rate> as_rate(Measure measure) {
  const auto index = static_cast<std::size_t>(measure);
  if (index >= rate_count) return std::nullopt;
  return static_cast<Rate>(index);
}

}  // namespace callfit

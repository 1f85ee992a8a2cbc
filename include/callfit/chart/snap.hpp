// One charted snap, as an analyst writes it down. docs/chart.md defines each column.
#pragma once

#include <callfit/base/names.hpp>
#include <callfit/base/shared_text.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

enum class Result : std::uint8_t {
  complete,
  incomplete,
  intercepted,
  sack,
  scramble,
  run,
  no_play
};
enum class Shell : std::uint8_t { one_high, two_high, none_high };
enum class Platform : std::uint8_t { pocket, moving };
enum class Lane : std::uint8_t { left, middle, right };

inline constexpr std::size_t shell_count = 3;

template <>
inline constexpr auto enum_words<Result> = std::to_array<std::string_view>(
    {"complete", "incomplete", "intercepted", "sack", "scramble", "run", "no_play"});
template <>
inline constexpr auto enum_words<Shell> = std::to_array<std::string_view>({"one_high", "two_high",
                                                                           "none_high"});
template <>
inline constexpr auto enum_words<Platform> = std::to_array<std::string_view>({"pocket", "moving"});
template <>
inline constexpr auto enum_words<Lane> = std::to_array<std::string_view>({"left", "middle",
                                                                          "right"});

/// Yards are measured along the field; `yards_to_goal` runs from 1 to 99 and `to_go` from 1 to
/// `yards_to_goal`. A blank (not charted) field is nullopt or an empty text. A chart can hold a
/// million of these, so they are kept to about a hundred and fifty bytes.
struct Snap {
  SharedText game;
  SharedText level;  ///< a level named by the setting, such as "college"
  int down = 1;      ///< 1 to 4
  int to_go = 10;
  int yards_to_goal = 75;
  SharedText family;  ///< id of a play family
  Result result = Result::run;
  int yards = 0;  ///< gain of the play, penalties apart; 0 for incomplete and intercepted
  SharedText opponent;
  std::optional<std::int16_t> quarter;
  std::optional<Shell> shell;
  std::optional<Platform> platform;
  std::optional<bool> pressure;
  std::optional<std::int16_t>
      air_yards;  ///< line of scrimmage to where the ball is caught or lands
  std::optional<Lane> lane;
  std::optional<bool> on_time;
  std::optional<bool> catchable;
  std::optional<std::int16_t> yac;
  std::optional<std::int16_t> evaded;  ///< defenders made to miss
  std::optional<bool> fumble_lost;
  SharedText note;
  SharedText snap_id;  ///< optional key that pairs two charts of the same snaps
  SharedText season, team;
  SharedText clip;                  ///< file of the film
  std::optional<float> start, end;  ///< seconds into the clip
  std::size_t line = 0;             ///< line in the file, for messages
};

/// The snaps of one file, in file order.
struct Chart {
  std::string source;  ///< file name, for messages
  std::vector<Snap> snaps;
};

bool is_throw(Result result);     ///< complete, incomplete or intercepted
bool is_dropback(Result result);  ///< a throw, a sack or a scramble
bool is_touch(Result result);  ///< somebody carries the ball past the snap: complete, scramble, run

}  // namespace callfit

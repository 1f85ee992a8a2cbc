// Which key does what while a tape is charted: a map that can be changed, as data.
#pragma once

#include <callfit/base/names.hpp>
#include <callfit/chart/columns.hpp>
#include <callfit/format/chart.hpp>

#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit::charting {

/// What a key can do besides being a value of the column that is asked. Those from `play` on move
/// the film and nothing else.
enum class Command {
  next,
  done,
  end_here,
  skip,
  column_before,
  erase,
  spot,
  place,
  quarter,
  game,
  opponent,
  note,
  again,
  row_before,
  row_after,
  row,
  waiting,
  insert,
  drop,
  undo,
  redo,
  take_mine,
  take_theirs,
  play,
  pause,
  shuttle_back,
  shuttle_on,
  back,
  on,
  slower,
  faster,
  frame_back,
  frame_on,
  loop,
};
inline constexpr std::size_t command_count = 34;

constexpr bool is_of_rows(Command command) {
  return command >= Command::row_before && command <= Command::drop;
}
constexpr bool moves_film(Command command) { return command >= Command::play; }

/// What is asked at once: one column, or two whose values go together and take one key.
using Question = std::vector<ChartColumn>;

/// "platform+pressure".
std::string name_of(const Question& question);

/// One key that answers a question: a value for each of its columns, blank for one that the key
/// says nothing of.
struct Choice {
  std::string key;
  std::vector<std::string> values;
};

/// Keys are named as browsers name them, "Space" for the blank, with "Ctrl+" and "Shift+" before
/// where they are held.
struct KeyMap {
  std::array<std::string, command_count> commands;
  /// Of the optional columns, in the order in which they are asked.
  std::vector<Question> order;
  /// By the question's name. Words that have no key of their own are given one (see choices_of()).
  std::map<std::string, std::vector<Choice>> choices;

  std::string& key(Command command) { return commands[static_cast<std::size_t>(command)]; }
  const std::string& key(Command command) const {
    return commands[static_cast<std::size_t>(command)];
  }
  std::optional<Command> command_of(std::string_view key) const;
};

KeyMap usual_keys();

/// Digits and signs take numbers, these what is offered for one and a gain to the goal line.
inline constexpr std::string_view offer_key = "f", goal_key = "g";

/// The usual map with what a document callfit-keys/1 changes. Throws one InputError with everything
/// that is wrong: unknown names, a key that would mean two things at once.
KeyMap keys_from_json(std::string_view text, const std::string& source, const ChartWords& words);

/// The keys that answer a question; empty for numbers and texts. Words without a key of their own,
/// such as a scheme's own families, get letters that are free.
std::vector<Choice> choices_of(const KeyMap& keys, const Question& question,
                               const ChartWords& words);

/// What each command does, in words.
std::string meaning_of(Command command);

}  // namespace callfit::charting

namespace callfit {

template <>
inline constexpr auto enum_words<charting::Command> = std::to_array<std::string_view>(
    {"next",         "done",       "end_here",    "skip",       "column_before",
     "erase",        "spot",       "place",       "quarter",    "game",
     "opponent",     "note",       "again",       "row_before", "row_after",
     "row",          "waiting",    "insert",      "drop",       "undo",
     "redo",         "take_mine",  "take_theirs", "play",       "pause",
     "shuttle_back", "shuttle_on", "back",        "on",         "slower",
     "faster",       "frame_back", "frame_on",    "loop"});

}  // namespace callfit

// The room where a chart is typed beside its film: what a page asks of it, and the files below it.
#pragma once

#include <callfit/desk/desk.hpp>
#include <desk/room_films.hpp>
#include <desk/settling_room.hpp>

#include <cstddef>
#include <memory>
#include <string>

namespace callfit::desk {

class ChartingRoom {
 public:
  /// Throws InputError where the chart or the keys cannot be read, or a film is none.
  explicit ChartingRoom(Taping taping);
  ~ChartingRoom();
  ChartingRoom(const ChartingRoom&) = delete;
  ChartingRoom& operator=(const ChartingRoom&) = delete;

  /// The document callfit-charting/1: all that the room shows.
  std::string state();
  /// {"keys": [{"key", "at", "playing"}], "film": place of the film, 1 the first, or 0}: the keys
  /// in their order, each row written before the next key; then the state.
  std::string keys(const std::string& body);
  /// Columns for film into a chart that has none; then the state.
  std::string add_columns();
  /// The key map as tables to print.
  std::string key_map() const;
  /// What the tape says so far: "verdict", "next", "rows" that it rests on, "working" while it is
  /// worked out. Asking begins with that wherever the chart has changed since.
  std::string so_far();

  /// What settles where this chart and another one differ. Throws InputError where there is none.
  SettlingRoom& settling();
  /// Whether nothing of another chart may be seen yet.
  bool is_blind() const;

  const RoomFilms& films() const;
  /// How often the chart on the disk was changed here.
  std::size_t version() const;

 private:
  class Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace callfit::desk

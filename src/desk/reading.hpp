// What a page sends, as values; each function throws one InputError with everything that is wrong.
#pragma once

#include <callfit/charting/charting.hpp>
#include <desk/film.hpp>
#include <desk/view.hpp>

#include <string>
#include <vector>

namespace callfit::desk {

/// {"quarterback", "scheme", "changes"} below the key "stand"; all else is left alone.
Stand stand_in(const std::string& body, const Case& about);

/// {"stand", "turn"?: {"path", one of "steps", "units", "typed"}, "following"?, "frame"?, "theme"?}
struct Sight {
  Look look;
  bool following = false;
};
Sight sight_in(const std::string& body, const Case& about);

/// {"name", "stand"?, "frame"?}
struct Named {
  std::string name;
  Stand stand;
  Frame frame = Frame::wide;
};
Named named_in(const std::string& body, const Case& about);

/// {"number", "stand"?}
SnapsRequest snaps_in(const std::string& body, const Case& about);

/// {"keys": [{"key", "at", "playing"}], "film": place among `films`, 1 the first, or 0}
std::vector<charting::Press> pressed_in(const std::string& body, const std::vector<Film>& films);

}  // namespace callfit::desk

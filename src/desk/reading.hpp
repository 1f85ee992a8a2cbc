// What a page sends, as values; each function throws one InputError with everything that is wrong.
#pragma once

#include <callfit/charting/charting.hpp>
#include <desk/view.hpp>

#include <cstddef>
#include <functional>
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

/// {"keys": [{"key", "at", "playing"}], "film": its place, 1 the first, or 0}; `clip_of` names the
/// film at a place.
std::vector<charting::Press> pressed_in(const std::string& body,
                                        const std::function<std::string(std::size_t)>& clip_of);

}  // namespace callfit::desk

// The films that a desk gives out, by their place on the page.
#pragma once

#include <callfit/charting/charting.hpp>
#include <callfit/desk/desk.hpp>
#include <callfit/desk/http.hpp>
#include <desk/film.hpp>

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace callfit::desk {

class RoomFilms {
 public:
  /// Those that are named, and those that the chart names and that lie beside it. Throws InputError
  /// for a named one that is no film.
  RoomFilms(const Taping& taping, const charting::ChartRows& rows);

  bool empty() const { return films_.empty(); }
  /// What charts call the film at a place, 1 the first; empty where there is none.
  std::string name(std::size_t place) const;
  /// The place of the one that charts call so.
  std::optional<std::size_t> place_of(const std::string& clip) const;
  /// Every film: "name", "target" (the token comes behind it), "fault" for a browser that cannot
  /// play it.
  nlohmann::ordered_json json() const;
  /// "film", "start" and "end" of a stretch; null where its film is not here.
  nlohmann::ordered_json json(const std::optional<charting::FilmPlace>& stretch) const;
  /// The part of a film that "/film/1/TOKEN" asks for.
  Reply part(const Call& call) const;

 private:
  std::vector<Film> films_;
};

/// Speeds, steps and jumps of a player.
nlohmann::ordered_json playing_json();

}  // namespace callfit::desk

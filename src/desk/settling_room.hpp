// A chart beside another one of the same snaps: charted blind to it, then held against it, then
// settled.
#pragma once

#include <callfit/charting/settling.hpp>
#include <callfit/desk/desk.hpp>
#include <desk/room_films.hpp>
#include <desk/typed_chart.hpp>

#include <nlohmann/json.hpp>

#include <optional>
#include <string>

namespace callfit::desk {

class SettlingRoom {
 public:
  /// Throws InputError where the other chart cannot be read or is the same one.
  SettlingRoom(const Taping& taping, TypedChart& typed, const RoomFilms& films);

  /// Until begin(): of the other chart nothing is told but what it calls its games, without which
  /// no snap could be paired.
  bool is_blind() const { return !sealed_; }
  /// What the charting room says of the other chart.
  nlohmann::ordered_json notice() const;

  /// Seals what was charted blind. Throws InputError where a row is being typed, no snap pairs, or
  /// the chart can only be looked at.
  std::string begin();
  /// The document callfit-settling/1: how far the two agree in what was charted blind, and the
  /// disagreement that is asked. Throws InputError before begin(), as keys() does.
  std::string state();
  /// {"keys": [names]}, each written before the next one; then the state.
  std::string keys(const std::string& body);

 private:
  void may_be_seen() const;
  void need_pairs() const;
  std::string games_words() const;
  nlohmann::ordered_json figures() const;
  nlohmann::ordered_json asked_json() const;
  nlohmann::ordered_json rows_json(const charting::Dispute& asked) const;
  nlohmann::ordered_json keys_json() const;
  std::optional<charting::FilmPlace> place_of(const charting::Dispute& asked) const;

  const Taping& taping_;
  TypedChart& typed_;
  const RoomFilms& films_;
  charting::Settling settling_;
  std::string mine_name_, theirs_name_;
  std::optional<std::string> sealed_;  ///< the chart as it was charted blind
  std::optional<nlohmann::ordered_json> figures_;
};

}  // namespace callfit::desk

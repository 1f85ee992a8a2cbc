#include <callfit/graphic/pictures.hpp>

#include <callfit/base/isolated.hpp>
#include "graphic/value_map.hpp"

#include <callfit/report/number_text.hpp>

#include <algorithm>
#include <string>

namespace callfit {
namespace {

const EntryAnswer& entry_at(const CompareAnswer& comparison, std::size_t row, std::size_t column) {
  return comparison.entries.at(row * comparison.schemes.size() + column);
}

CellFrame frame_of(double odds_best) {
  const Verdict best{odds_best, 0, 1};
  if (!best.yes() || best.lean() == Lean::open) return CellFrame::fine;
  return best.lean() == Lean::clear ? CellFrame::solid : CellFrame::dashed;
}

std::string place_of(const EntryAnswer& entry, const Wording& wording) {
  return wording("map_place", {{"place", value_text(Unit::place, entry.place.centre)},
                               {"range", range_text(Unit::place, entry.place)}});
}

ValueMap map_of(const CompareAnswer& comparison, const Wording& wording) {
  ValueMap map{comparison.quarterbacks,
               comparison.schemes,
               {},
               wording("map_axis"),
               wording("map_place_axis")};
  for (std::size_t r = 0; r < map.rows.size(); ++r) {
    map.cells.emplace_back();
    for (std::size_t c = 0; c < map.columns.size(); ++c) {
      const EntryAnswer& entry = entry_at(comparison, r, c);
      map.cells.back().push_back({entry.net_points,
                                  value_text(Unit::signed_points, entry.net_points.centre),
                                  range_text(Unit::signed_points, entry.net_points),
                                  place_of(entry, wording), frame_of(entry.odds_best)});
    }
  }
  return map;
}

std::string name_of(const EntryAnswer& entry, const Wording& wording) {
  return wording("in_scheme", {{"player", isolated(entry.about.quarterback)},
                               {"scheme", isolated(entry.about.scheme)}});
}

// The surest difference first.
std::vector<DifferenceAnswer> by_odds(const CompareAnswer& comparison) {
  auto differences = comparison.differences;
  std::stable_sort(differences.begin(), differences.end(),
                   [](const DifferenceAnswer& a, const DifferenceAnswer& b) {
                     return a.ahead.of_side() > b.ahead.of_side();
                   });
  return differences;
}

std::string best_sentence(const CompareAnswer& comparison, const Wording& wording) {
  const auto best = std::max_element(
      comparison.entries.begin(), comparison.entries.end(),
      [](const EntryAnswer& a, const EntryAnswer& b) { return a.odds_best < b.odds_best; });
  return wording("map_best",
                 {{"best", name_of(*best, wording)}, {"odds", percent(best->odds_best)}});
}

Telling telling_of(const CompareAnswer& comparison, const Wording& wording) {
  // Quarterbacks are held against each other in the first scheme, schemes under the one man.
  const bool men = comparison.quarterbacks.size() > 1;
  std::vector<std::string> said;
  for (const DifferenceAnswer& difference : by_odds(comparison))
    said.push_back(ahead_sentence(difference, men ? comparison.schemes.front() : "", wording));
  std::string lines;
  for (const EntryAnswer& entry : comparison.entries)
    lines += name_of(entry, wording) + ": " +
             wording("net_a_drive", {{"net", number_text(Unit::signed_points, entry.net_points)}}) +
             "; " + place_of(entry, wording) + ".\n";
  std::vector<std::string> deck;
  if (comparison.entries.size() > 1) deck.push_back(best_sentence(comparison, wording));
  for (std::size_t i = 1; i < said.size(); ++i) deck.push_back(said[i] + ".");
  return {
      wording(men ? "map_kicker" : "map_kicker_one",
              {{"player", isolated(comparison.quarterbacks.front())}}),
      said.empty() ? name_of(comparison.entries.front(), wording) : said.front(),
      deck,
      {wording("map_note", {{"clear", odds_words(clear_from)}, {"leans", odds_words(leans_from)}})},
      lines};
}

}  // namespace

Panel comparison_panel(const CompareAnswer& comparison, const Wording& wording) {
  return {telling_of(comparison, wording),
          [map = map_of(comparison, wording)](Canvas& canvas, const Box& box) {
            paint_value_map(canvas, box, map);
          }};
}

}  // namespace callfit

#include <profile/weights.hpp>

#include <callfit/base/finding.hpp>
#include <callfit/base/nearest.hpp>

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

namespace callfit {
namespace {

using Places = std::map<std::string, std::size_t, std::less<>>;

std::optional<std::size_t> place_in(const Places& places, std::string_view id) {
  const auto found = places.find(id);
  return found == places.end() ? std::nullopt : std::optional(found->second);
}

std::vector<std::string> ids_of(const Places& places) {
  std::vector<std::string> ids;
  for (const auto& entry : places) ids.push_back(entry.first);
  return ids;
}

// Places of families and levels by their ids.
class Index {
 public:
  Index(const Setting& setting, const Weighting& weighting, const std::vector<FamilyAlias>& like)
      : families_(setting, like) {
    for (std::size_t l = 0; l < weighting.levels.size(); ++l) levels_[weighting.levels[l].id] = l;
  }

  std::optional<std::size_t> family(std::string_view id) const { return families_.at(id); }
  std::optional<std::size_t> level(std::string_view id) const { return place_in(levels_, id); }

  Finding unknown_family(const Chart& chart, const Snap& snap) const {
    return unknown(families_.known(), {chart.source, snap.line, "family"}, "play family",
                   snap.family);
  }
  Finding unknown_level(const Chart& chart, const Snap& snap) const {
    return unknown(ids_of(levels_), {chart.source, snap.line, "level"}, "level", snap.level);
  }

 private:
  static Finding unknown(const std::vector<std::string>& known, Place place,
                         const std::string& what, const SharedText& id) {
    return {std::move(place), "the setting does not know the " + what + " '" + id.str() + "'",
            suggest(id, known)};
  }

  FamilyPlaces families_;
  Places levels_;
};

using GameKey = std::pair<SharedText, SharedText>;

// Games in order of appearance.
class Games {
 public:
  explicit Games(const std::vector<Chart>& charts) {
    for (const Chart& chart : charts)
      for (const Snap& snap : chart.snaps)
        if (place_.try_emplace({snap.game, snap.level}, games_.size()).second)
          games_.push_back({snap.game.str(), snap.level.str(), 0, 0});
  }

  void add(const Snap& snap, double weight) {
    GameContribution& game = games_[place_.at({snap.game, snap.level})];
    game.snaps += 1;
    game.effective_snaps += weight;
  }

  std::vector<GameContribution> take() { return std::move(games_); }

 private:
  std::map<GameKey, std::size_t> place_;
  std::vector<GameContribution> games_;
};

}  // namespace

FamilyPlaces::FamilyPlaces(const Setting& setting, const std::vector<FamilyAlias>& like) {
  for (std::size_t f = 0; f < setting.families.size(); ++f) places_[setting.families[f].id] = f;
  for (const FamilyAlias& alias : like)
    if (const auto place = at(alias.like)) places_.insert_or_assign(alias.id, *place);
}

std::optional<std::size_t> FamilyPlaces::at(std::string_view id) const {
  return place_in(places_, id);
}

std::vector<std::string> FamilyPlaces::known() const { return ids_of(places_); }

std::vector<GameContribution> weigh(const std::vector<Chart>& charts, const Setting& setting,
                                    const Weighting& weighting,
                                    const std::vector<FamilyAlias>& like,
                                    const std::function<void(const WeightedSnap&)>& visit) {
  const Index index(setting, weighting, like);
  Games games(charts);
  Findings findings;
  for (const Chart& chart : charts)
    for (const Snap& snap : chart.snaps) {
      const auto family = index.family(snap.family);
      const auto level = index.level(snap.level);
      const bool has_family = snap.result != Result::no_play || !snap.family.str().empty();
      if (!family && has_family) findings.push_back(index.unknown_family(chart, snap));
      if (!level) findings.push_back(index.unknown_level(chart, snap));
      if (!family || !level || snap.result == Result::no_play) continue;
      const double weight = weighting.levels[*level].weight;
      games.add(snap, weight);
      visit({&chart, &snap, *family, *level, weight});
    }
  if (!findings.empty()) throw InputError(std::move(findings));
  return games.take();
}

}  // namespace callfit

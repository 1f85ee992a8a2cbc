// Which snaps of some charts count for which family, and how much.
#pragma once

#include <callfit/profile/profile.hpp>

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// A snap with its place in the setting and its weight; no_play rows are left out.
struct WeightedSnap {
  const Chart* chart = nullptr;
  const Snap* snap = nullptr;
  std::size_t family = 0;  ///< index into Setting::families
  std::size_t level = 0;   ///< index into Weighting::levels
  double weight = 1;       ///< the level's
};

/// Places in Setting::families of families by their ids, those that a chart has them under too.
class FamilyPlaces {
 public:
  FamilyPlaces(const Setting& setting, const std::vector<FamilyAlias>& like);

  std::optional<std::size_t> at(std::string_view id) const;
  std::vector<std::string> known() const;

 private:
  std::map<std::string, std::size_t, std::less<>> places_;
};

/// Calls `visit` for every snap that counts, in the order of the charts, and returns what each game
/// contributes, in that order too. Throws InputError for families and levels that are not known,
/// all in one go.
std::vector<GameContribution> weigh(const std::vector<Chart>& charts, const Setting& setting,
                                    const Weighting& weighting,
                                    const std::vector<FamilyAlias>& like,
                                    const std::function<void(const WeightedSnap&)>& visit);

}  // namespace callfit

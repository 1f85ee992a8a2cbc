// Three quarterbacks with much, little and no tape, out of the demo's case.
#pragma once

#include <callfit/ask/case.hpp>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace callfit::testing {

inline Profile first_snaps(const Case& about, std::size_t snaps) {
  std::vector<Chart> charts = about.quarterbacks.front().tape->charts;
  charts.front().snaps.resize(std::min(charts.front().snaps.size(), snaps));
  if (snaps == 0) charts.clear();
  return build_profile("Somebody", charts, about.setting, weighting_of(about.setting),
                       about.quarterbacks.front().tape->like);
}

inline std::vector<std::pair<std::string, Profile>> three_men(const Case& about) {
  return {{"the demo's new starter", about.quarterbacks.front().profile},
          {"40 snaps", first_snaps(about, 40)},
          {"never charted", first_snaps(about, 0)}};
}

}  // namespace callfit::testing

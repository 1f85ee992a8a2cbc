// What was foretold of seasons against what came.
#pragma once

#include <callfit/validate/season_points.hpp>

#include <string>
#include <vector>

namespace callfit {

/// A man of whom something was foretold, points per drive; `miss_sd` is by how much what came was
/// expected to miss it, 0 where nobody knows.
struct ForetoldSeason {
  std::string man;
  double expected = 0, came = 0, miss_sd = 0;
};

/// Nothing but their number where there are fewer than ten.
Foretold foretold_of(const std::vector<ForetoldSeason>& seasons);

}  // namespace callfit

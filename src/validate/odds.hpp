// Odds between two men of a season, given before it, against what came.
#pragma once

#include <validate/played_season.hpp>

namespace callfit {

/// Somebody of whom a season was foretold, and what came of it.
struct Rival {
  std::string man;
  int year = 0;         ///< that was foretold
  double expected = 0;  ///< points per drive, beyond the same for all rivals of the year
  double sd = 0;        ///< by which the season was expected to miss it
  double gap_of = 0;    ///< what the model made of his season before
  double points = 0;    ///< that came
};

OddsReport odds_between(const std::vector<Rival>& rivals);

}  // namespace callfit

// How drives end under two quarterbacks, side by side.
#pragma once

#include <callfit/graphic/dress.hpp>

#include <string>
#include <vector>

namespace callfit {

struct ResultShare {
  std::string label;      ///< "touchdown"
  Reading first, second;  ///< shares of drives
};

struct DriveResults {
  std::string first, second;  ///< players
  std::string scheme;
  Reading points_first, points_second;  ///< per drive
  Reading difference;                   ///< first minus second, points per drive
  std::vector<ResultShare> results;
};

Panel drive_results_panel(const DriveResults& values, const Wording& wording);

}  // namespace callfit

// Every quarterback against every scheme (or any two lists): a table one can see.
#pragma once

#include <callfit/graphic/dress.hpp>

#include <string>
#include <vector>

namespace callfit {

struct ComparisonMap {
  std::string what;  ///< "fit", "points per drive"
  int decimals = 0;
  std::string row_kind;                     ///< what a row is: "quarterback"
  std::string column_kind;                  ///< "scheme"
  std::vector<std::string> row_labels;      ///< "quarterbacks"
  std::vector<std::string> column_labels;   ///< "schemes"
  std::vector<std::vector<Reading>> cells;  ///< [row][column]
  bool more_is_better = true;
};

Panel comparison_panel(const ComparisonMap& values, const Wording& wording);

}  // namespace callfit

// What the model says against what happened.
#pragma once

#include <callfit/graphic/dress.hpp>

#include <string>
#include <vector>

namespace callfit {

struct ValidationRow {
  std::string label;  ///< "touchdown"
  double model = 0;
  Reading observed;  ///< same unit
  bool is_share = true;
};

struct ValidationPicture {
  std::string what;    ///< "drive results of held-out games"
  std::string source;  ///< of the observations
  std::vector<ValidationRow> rows;
};

Panel validation_panel(const ValidationPicture& values, const Wording& wording);

}  // namespace callfit

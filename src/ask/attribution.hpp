// What each snap moved a number by. docs/model.md, "What a snap moved".
#pragma once

#include <ask/tape_stages.hpp>
#include <ask/tracked.hpp>

#include <vector>

namespace callfit::ask {

/// Parts of the way from `without` to `with`; what they do not add up to is the quadrature's.
struct Attribution {
  double without = 0, with = 0;  ///< with no snap, with all
  std::vector<double> moved;     ///< one a snap of the evidence
  double season_totals = 0;      ///< what nobody charted of the seasons

  double rest() const;  ///< with - without - all parts
};

Attribution attribution_of(const TapeStages& stages, const Tracked& tracked,
                           const Question& question);

}  // namespace callfit::ask

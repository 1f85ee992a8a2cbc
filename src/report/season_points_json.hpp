// Points of real seasons beside the model's as a JSON value; docs/results.md describes it.
#pragma once

#include "report/json.hpp"

#include <callfit/validate/season_points.hpp>

namespace callfit {

Json season_points_json(const PointsReport& report);

}  // namespace callfit

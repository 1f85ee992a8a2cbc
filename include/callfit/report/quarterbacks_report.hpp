// How well a population foretold real quarterbacks, as text for a terminal (100 columns).
#pragma once

#include <callfit/validate/quarterbacks.hpp>
#include <callfit/validate/season_points.hpp>

#include <string>

namespace callfit {

std::string quarterbacks_text(const QuarterbackReport& report);

/// And how well drives made real seasons' points of their rates.
std::string season_points_text(const PointsReport& report);

}  // namespace callfit

// Answers to questions as the plain values that pictures take.
#pragma once

#include <callfit/ask/levers.hpp>
#include <callfit/ask/whatif.hpp>
#include <callfit/graphic/comparison_map.hpp>
#include <callfit/graphic/curves.hpp>
#include <callfit/graphic/levers.hpp>

#include <string>
#include <vector>

namespace callfit {

/// Change of net points a game over the swept quantity.
SweepCurve sweep_picture(const std::string& player, const Sweep& result);

ComparisonMap grid_picture(const SweepGrid& result);

/// The `most` largest levers; handoffs are not the quarterback's to work on.
LeverPicture lever_picture(const std::string& player, const std::string& scheme,
                           const std::vector<LeverValue>& levers, std::size_t most);

}  // namespace callfit

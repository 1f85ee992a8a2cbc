#pragma once

#include <ask/memory.hpp>
#include <callfit/ask/answer.hpp>

#include <vector>

namespace callfit::ask {

/// Knobs that drives depend on, most net points first: exact derivatives at a realistic step (one
/// standard deviation between players of the setting for a rate or a mean gain, 10 percentage
/// points for a call share), signed toward more net points.
const std::vector<LeverAnswer>& levers_of(Memory& memory, Standing& standing);

}  // namespace callfit::ask

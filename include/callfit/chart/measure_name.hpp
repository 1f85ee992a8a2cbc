// What a measure is called in tables and pictures.
#pragma once

#include <callfit/chart/rate.hpp>

#include <optional>
#include <string>

namespace callfit {

/// "completion", or "completion, two high" where it is that of one cell.
std::string measure_name(Measure measure, const std::optional<Cell>& cell);

}  // namespace callfit

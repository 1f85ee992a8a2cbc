// A validation report as text for a terminal (100 columns).
#pragma once

#include <callfit/validate/validate.hpp>

#include <string>

namespace callfit {

/// Targets first, then drives by start, then each table of values.
std::string validation_text(const ValidationReport& report);

}  // namespace callfit

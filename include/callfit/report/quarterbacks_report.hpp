// How well a population foretold real quarterbacks, as text for a terminal (100 columns).
#pragma once

#include <callfit/validate/quarterbacks.hpp>

#include <string>

namespace callfit {

std::string quarterbacks_text(const QuarterbackReport& report);

}  // namespace callfit

// The same report as a JSON value; docs/results.md describes it.
#pragma once

#include "report/json.hpp"

#include <callfit/validate/quarterbacks.hpp>

namespace callfit {

Json quarterbacks_json(const QuarterbackReport& report);

}  // namespace callfit

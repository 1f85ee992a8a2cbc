// A validation report as a JSON value; docs/results.md describes it.
#pragma once

#include "report/json.hpp"

#include <callfit/validate/validate.hpp>

namespace callfit {

Json validation_json(const ValidationReport& report);

}  // namespace callfit

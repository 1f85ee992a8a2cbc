#pragma once

#include "report/json.hpp"

#include <callfit/ask/knob.hpp>

#include <vector>

namespace callfit {

/// Every path that can be turned; docs/results.md describes it.
Json knobs_json(const std::vector<KnobValue>& knobs);

}  // namespace callfit

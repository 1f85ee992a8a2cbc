#pragma once

#include "report/json.hpp"

#include <callfit/ask/answer.hpp>
#include <callfit/ask/knob.hpp>

#include <vector>

namespace callfit {

/// Every path that can be turned; docs/results.md describes it.
Json knobs_json(const std::vector<KnobValue>& knobs);

/// Every number that rests on snaps, likewise.
Json snap_numbers_json(const std::vector<SnapNumber>& numbers);

}  // namespace callfit

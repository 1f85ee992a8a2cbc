#pragma once

#include "report/json.hpp"

namespace callfit {

/// The answer as docs/formats/callfit-answer-1.schema.json describes it. Throws std::logic_error
/// where a number is NaN or infinite.
Json to_json(const Answer& answer);

}  // namespace callfit

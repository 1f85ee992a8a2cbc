#pragma once

#include "report/json.hpp"

#include <callfit/ask/request.hpp>

namespace callfit {

/// The request with everything said that was left out; quarterbacks by name, schemes by id, both
/// by place where that would fit two.
Json to_json(const Request& request, const Case& about);

}  // namespace callfit

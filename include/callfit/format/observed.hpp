// What real drives did, as JSON. docs/formats/callfit-observed-1.schema.json describes it.
#pragma once

#include <callfit/validate/observed.hpp>

#include <string>
#include <string_view>

namespace callfit {

/// "callfit-observed/1" text. Throws one InputError with everything that is wrong.
Observed parse_observed(std::string_view text, const std::string& source);

}  // namespace callfit

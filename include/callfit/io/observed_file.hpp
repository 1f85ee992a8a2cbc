// What real drives did, as JSON. docs/formats/callfit-observed-1.schema.json is its schema.
#pragma once

#include <callfit/validate/observed.hpp>

#include <string>

namespace callfit {

/// A "callfit-observed/1" file. Throws one InputError with everything that is wrong.
Observed read_observed(const std::string& path);

}  // namespace callfit

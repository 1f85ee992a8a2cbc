// Settings as JSON. docs/formats.md describes the format.
#pragma once

#include <callfit/setting/setting.hpp>

#include <string>

namespace callfit {

/// A setting from a "callfit-setting/1" file. A file with a `based_on` key is laid over the file of
/// that name beside it (JSON merge patch, RFC 7386: objects merge, everything else is replaced).
/// Probabilities may miss a sum of 1 by rounding and are brought to it. Throws one InputError with
/// everything that is wrong.
Setting read_setting(const std::string& path);

}  // namespace callfit

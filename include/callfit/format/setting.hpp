// Settings as JSON. docs/formats.md describes the format.
#pragma once

#include <callfit/format/beside.hpp>
#include <callfit/setting/setting.hpp>

#include <string>
#include <string_view>

namespace callfit {

/// A setting from "callfit-setting/1" text. A text with a `based_on` key is laid over the one of
/// that name, which `beside` finds (JSON merge patch, RFC 7386: objects merge, everything else is
/// replaced). Probabilities may miss a sum of 1 by rounding and are brought to it. Throws one
/// InputError with everything that is wrong.
Setting parse_setting(std::string_view text, const std::string& source,
                      const Beside& beside = nothing_beside);

}  // namespace callfit

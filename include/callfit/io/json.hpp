#pragma once

#include <string>

namespace callfit {

/// The value of the top-level "format" key of a JSON file, such as "callfit-scheme/1"; empty when
/// there is none. Throws InputError when the file cannot be read or is not JSON.
std::string format_of(const std::string& path);

}  // namespace callfit

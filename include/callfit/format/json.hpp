#pragma once

#include <string>
#include <string_view>

namespace callfit {

/// Whether a text means to be JSON: its first character that is no blank opens an object or a list.
bool is_json_text(std::string_view text);

/// The value of the top-level "format" key of JSON text, such as "callfit-scheme/1"; empty when
/// there is none. Throws InputError when the text is not JSON.
std::string format_of(std::string_view text, const std::string& source);

}  // namespace callfit

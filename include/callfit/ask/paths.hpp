#pragma once

#include <string>
#include <string_view>

namespace callfit {

/// Whether every word of `words` (between blanks, dots and commas) begins a word of the path or of
/// its label, whatever the case: "deep completion" of "rate.deep_outside.completion".
bool path_has_words(std::string_view path, std::string_view label, std::string_view words);

}  // namespace callfit

// Styles of pictures as JSON. docs/formats.md describes the format.
#pragma once

#include <callfit/graphic/dress.hpp>

#include <string>

namespace callfit {

/// Lays a "callfit-style/1" file over the dress: theme, colours, fonts, wording, all optional. A
/// theme goes first, so that colours change that theme's. Throws one InputError with everything
/// that is wrong, colours that cannot be read on their ground among it; then `dress` is unchanged.
void apply_style_file(const std::string& path, Dress& dress);

}  // namespace callfit

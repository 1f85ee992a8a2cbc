// Styles of pictures as JSON. docs/formats.md describes the format.
#pragma once

#include <callfit/graphic/dress.hpp>

#include <string>
#include <string_view>

namespace callfit {

/// Lays "callfit-style/1" text over the dress: theme, colours, fonts, wording, all optional. A
/// theme goes first, so that colours change that theme's. Throws one InputError with everything
/// that is wrong, colours that cannot be read on their ground among it.
Dress with_style(Dress dress, std::string_view text, const std::string& source);

}  // namespace callfit

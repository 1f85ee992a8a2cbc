#pragma once

#include <string>

namespace callfit {

/// "New starter" -> "new-starter": a name of a file, of small letters, digits and single hyphens;
/// "unnamed" where nothing is left.
std::string slug(const std::string& name);

}  // namespace callfit

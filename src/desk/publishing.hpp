// Pictures into the case's folder.
#pragma once

#include <callfit/draw/figure.hpp>

#include <string>
#include <vector>

namespace callfit::desk {

/// Writes NAME.svg, NAME.png and NAME.txt (`beside`) under a name that no file of the folder has
/// yet; returns the names. Throws InputError where the folder cannot be written to.
std::vector<std::string> publish(const std::string& folder, const std::string& name,
                                 const Figure& drawing, const std::string& beside);

}  // namespace callfit::desk

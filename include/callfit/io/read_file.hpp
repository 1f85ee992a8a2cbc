#pragma once

#include <string>

namespace callfit {

/// The bytes of a regular file. Throws InputError when it is missing, a folder or unreadable.
std::string read_file(const std::string& path);

}  // namespace callfit

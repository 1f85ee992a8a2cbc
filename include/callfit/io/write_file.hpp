#pragma once

#include <string>
#include <string_view>

namespace callfit {

/// Writes the bytes under a temporary name beside `path` and renames, so that a reader sees the
/// whole file or none. Throws InputError when the folder is missing or cannot be written.
void write_file(const std::string& path, std::string_view bytes);

}  // namespace callfit

// Files that are put into the program when it is built (cmake/embed.cmake).
#pragma once

#include <span>
#include <string_view>

namespace callfit {

struct EmbeddedFile {
  std::string_view path;  ///< "/desk.css"
  std::string_view bytes;
};

/// nullptr where there is none of that path.
const EmbeddedFile* find_file(std::span<const EmbeddedFile> files, std::string_view path);

}  // namespace callfit

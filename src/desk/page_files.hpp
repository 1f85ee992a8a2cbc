// The page's own files, put into the program when it is built (cmake/embed.cmake).
#pragma once

#include <span>
#include <string_view>

namespace callfit::desk {

struct PageFile {
  std::string_view path;  ///< "/desk.css"
  std::string_view bytes;
};

std::span<const PageFile> page_files();

/// By the ending of the path.
std::string_view type_of(std::string_view path);

}  // namespace callfit::desk

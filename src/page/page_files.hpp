// The page's own files, put into the program when it is built (cmake/embed.cmake).
#pragma once

#include <span>
#include <string_view>

namespace callfit::page {

struct PageFile {
  std::string_view path;  ///< "/reader.css"
  std::string_view bytes;
};

std::span<const PageFile> page_files();

}  // namespace callfit::page

// The page's own files.
#pragma once

#include <files/embedded.hpp>

#include <span>
#include <string_view>

namespace callfit::desk {

std::span<const EmbeddedFile> page_files();

/// By the ending of the path.
std::string_view type_of(std::string_view path);

}  // namespace callfit::desk

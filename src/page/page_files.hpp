// The page's own files.
#pragma once

#include <files/embedded.hpp>

#include <span>
#include <string_view>

namespace callfit::page {

std::span<const EmbeddedFile> page_files();

}  // namespace callfit::page

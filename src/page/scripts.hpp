// The page's own scripts, put together.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace callfit::page {

/// Modules as one: lines that import are left out, what is exported is there for those that follow.
/// An import has to stand on one line, and names must differ between the modules.
std::string joined(const std::vector<std::string_view>& modules);

}  // namespace callfit::page

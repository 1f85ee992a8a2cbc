#include <page/scripts.hpp>

#include <algorithm>

namespace callfit::page {

std::string joined(const std::vector<std::string_view>& modules) {
  constexpr std::string_view exported = "export ";
  std::string whole;
  for (std::string_view module : modules) {
    while (!module.empty()) {
      const std::size_t end = std::min(module.find('\n'), module.size() - 1) + 1;
      std::string_view line = module.substr(0, end);
      module.remove_prefix(end);
      if (line.starts_with("import ")) continue;
      if (line.starts_with(exported)) line.remove_prefix(exported.size());
      whole += line;
    }
  }
  return whole;
}

}  // namespace callfit::page

#include <desk/page_files.hpp>

namespace callfit::desk {

std::string_view type_of(std::string_view path) {
  if (path.ends_with(".js")) return "text/javascript; charset=utf-8";
  if (path.ends_with(".css")) return "text/css; charset=utf-8";
  return "text/html; charset=utf-8";
}

}  // namespace callfit::desk

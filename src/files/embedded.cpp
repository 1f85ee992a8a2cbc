#include <files/embedded.hpp>

#include <algorithm>

namespace callfit {

const EmbeddedFile* find_file(std::span<const EmbeddedFile> files, std::string_view path) {
  const auto found = std::find_if(files.begin(), files.end(),
                                  [path](const EmbeddedFile& one) { return one.path == path; });
  return found == files.end() ? nullptr : &*found;
}

}  // namespace callfit

#include "on_disk.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>

namespace callfit::fuzz {

namespace fs = std::filesystem;

OnDisk::OnDisk(const std::string& name)
    : folder_((fs::temp_directory_path() / "callfit-fuzz-XXXXXX").string()) {
  if (::mkdtemp(folder_.data()) == nullptr) throw std::runtime_error("no folder in " + folder_);
  path_ = folder_ + '/' + name;
}

OnDisk::~OnDisk() {
  std::error_code failed;
  fs::remove_all(folder_, failed);
}

void OnDisk::write(std::string_view bytes) const {
  std::ofstream out(path_, std::ios::binary | std::ios::trunc);
  if (!out.write(bytes.data(), static_cast<std::streamsize>(bytes.size())).flush())
    throw std::runtime_error("cannot write " + path_);
}

}  // namespace callfit::fuzz

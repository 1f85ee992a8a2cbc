// A folder that lives as long as a test.
#pragma once

#include <unistd.h>

#include <filesystem>
#include <string>

namespace callfit::testing {

struct Folder {
  std::filesystem::path path =
      std::filesystem::temp_directory_path() / ("callfit-test-" + std::to_string(::getpid()));
  Folder() { std::filesystem::create_directories(path); }
  ~Folder() { std::filesystem::remove_all(path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::string operator/(const std::string& name) const { return (path / name).string(); }
};

}  // namespace callfit::testing

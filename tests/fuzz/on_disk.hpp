// Bytes in a file, for what opens one itself.
#pragma once

#include <string>
#include <string_view>

namespace callfit::fuzz {

/// One file in a folder of its own, gone with this.
class OnDisk {
 public:
  explicit OnDisk(const std::string& name);
  ~OnDisk();
  OnDisk(const OnDisk&) = delete;
  OnDisk& operator=(const OnDisk&) = delete;

  void write(std::string_view bytes) const;
  const std::string& folder() const { return folder_; }
  const std::string& path() const { return path_; }

 private:
  std::string folder_, path_;
};

}  // namespace callfit::fuzz

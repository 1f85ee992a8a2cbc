#include <callfit/files/files.hpp>
#include <files/stream.hpp>

#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <fstream>

namespace callfit {
namespace {

namespace fs = std::filesystem;

/// Whether all bytes arrived.
bool put(const std::string& path, std::string_view bytes) {
  errno = 0;
  std::ofstream out(path, std::ios::binary | std::ios::trunc);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  return out.good();
}

void check_place(const std::string& path) {
  if (fs::is_directory(path)) refuse_file(path, "is a folder", "name a file inside it");
  const fs::path folder = fs::path(path).parent_path();
  if (!folder.empty() && !fs::is_directory(folder))
    refuse_file(path, "cannot be written: the folder " + folder.string() + " does not exist",
                "create it first");
}

}  // namespace

void Files::write(const std::string& path, std::string_view bytes) {
  will_write(path);
  check_place(path);
  // A device or pipe cannot be renamed over: write straight into it.
  const bool in_place = fs::exists(path) && !fs::is_regular_file(path);
  const std::string target = in_place ? path : path + ".part-" + std::to_string(::getpid());
  std::error_code failed;
  if (!put(target, bytes)) {
    const std::string reason = system_reason();
    if (!in_place) fs::remove(target, failed);
    refuse_file(path, "cannot be written: " + reason, "");
  }
  if (in_place) return;
  fs::rename(target, path, failed);
  if (!failed) return;
  const std::string reason = failed.message();
  fs::remove(target, failed);
  refuse_file(path, "cannot be written: " + reason, "");
}

}  // namespace callfit

#include <callfit/files/files.hpp>
#include <files/mark.hpp>
#include <files/part_name.hpp>
#include <files/stream.hpp>

#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <memory>

namespace callfit {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse_write(const std::string& path, const std::string& reason,
                               const std::string& mend = "") {
  refuse_file(path, "cannot be written: " + reason, mend);
}

/// Where the bytes go: at the end of symbolic links, whether something is there or not.
fs::path followed(const std::string& path) {
  constexpr int most_links = 40;  // as Linux has it
  fs::path place = path;
  std::error_code failed;
  for (int links = 0; fs::is_symlink(place, failed); ++links) {
    if (links == most_links) refuse_write(path, "its links lead nowhere");
    place = place.parent_path() / fs::read_symlink(place, failed);
  }
  return place;
}

void check_place(const std::string& path, const fs::path& place) {
  std::error_code failed;
  const fs::file_status status = fs::status(place, failed);
  if (failed && status.type() == fs::file_type::none) refuse_write(path, failed.message());
  if (fs::is_directory(status)) refuse_file(path, "is a folder", "name a file inside it");
  const fs::path folder = place.parent_path();
  if (!folder.empty() && !fs::is_directory(folder, failed))
    refuse_write(path, "the folder " + folder.string() + " does not exist", "create it first");
  if (fs::exists(status) && ::access(place.c_str(), W_OK) != 0) refuse_write(path, system_reason());
}

struct Close {
  void operator()(std::FILE* file) const { std::fclose(file); }
};
using OpenFile = std::unique_ptr<std::FILE, Close>;

/// Whether all bytes arrived, on the disk where there is one.
bool put(std::FILE* file, std::string_view bytes) {
  if (file == nullptr) return false;
  errno = 0;
  if (std::fwrite(bytes.data(), 1, bytes.size(), file) != bytes.size() || std::fflush(file) != 0)
    return false;
  return ::fsync(fileno(file)) == 0 || errno == EINVAL || errno == EROFS;
}

/// A file beside `place` that was not there, and its name. Held as long as it is open, so that
/// remove_left_parts() leaves it alone.
OpenFile new_file_beside(const fs::path& place, fs::path& name) {
  for (int i = 0;; ++i) {
    name = place.parent_path() / part_name(::getpid(), i);
    OpenFile file(std::fopen(name.c_str(), "wbxe"));
    if (file) ::flock(fileno(file.get()), LOCK_EX | LOCK_NB);
    if (file || errno != EEXIST) return file;
  }
}

/// What `place` allowed to whom, its successor allows too.
void keep_permissions(const fs::path& place, const fs::path& successor) {
  struct stat old = {};
  if (::stat(place.c_str(), &old) != 0) return;
  // Only root may give files away; who cannot still writes with his own name.
  if (::chown(successor.c_str(), old.st_uid, old.st_gid) != 0) errno = 0;
  ::chmod(successor.c_str(), old.st_mode & 07777U);
}

/// Writes a new file and puts it in the place of the old one at once.
void replace(const std::string& path, const fs::path& place, std::string_view bytes) {
  fs::path part;
  const OpenFile file = new_file_beside(place, part);  // held until it has its name
  if (!file) refuse_write(path, system_reason());
  std::error_code failed;
  if (!put(file.get(), bytes)) {
    const std::string reason = system_reason();
    fs::remove(part, failed);
    refuse_write(path, reason);
  }
  keep_permissions(place, part);
  fs::rename(part, place, failed);
  if (!failed) return;
  const std::string reason = failed.message();
  fs::remove(part, failed);
  refuse_write(path, reason);
}

/// A folder beside `place` that was not there and goes with the object.
class FolderBeside {
 public:
  FolderBeside(const std::string& path, const fs::path& place) {
    std::string pattern = (place.parent_path() / ".callfit-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) refuse_write(path, system_reason());
    path_ = pattern;
  }
  ~FolderBeside() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  FolderBeside(const FolderBeside&) = delete;
  FolderBeside& operator=(const FolderBeside&) = delete;

  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

}  // namespace

void Files::check_outputs(const std::string& path) {
  if (std::find(written_.begin(), written_.end(), path) == written_.end()) will_write(path);
  for (const std::string& output : unchecked_) check_own(output);
  unchecked_.clear();
}

void Files::write_by(const std::string& path,
                     const std::function<std::string(const std::string& folder)>& make) {
  check_outputs(path);
  const fs::path place = followed(path);
  check_place(path, place);
  std::error_code failed;
  if (fs::exists(place, failed) && !fs::is_regular_file(place, failed))
    refuse_write(path, "it is no usual file");
  const FolderBeside folder(path, place);
  const std::string made = make(folder.path());
  keep_permissions(place, made);
  fs::rename(made, place, failed);
  if (failed) refuse_write(path, failed.message());
}

void Files::write(const std::string& path, std::string_view bytes) {
  check_outputs(path);
  const fs::path place = followed(path);
  check_place(path, place);
  const std::string all = marked(bytes, path);
  std::error_code failed;
  // A device or pipe cannot be renamed over: write straight into it.
  if (fs::exists(place, failed) && !fs::is_regular_file(place, failed)) {
    const OpenFile file(std::fopen(place.c_str(), "wb"));
    if (!put(file.get(), all)) refuse_write(path, system_reason());
  } else {
    replace(path, place, all);
  }
}

}  // namespace callfit

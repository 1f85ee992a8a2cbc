#include <callfit/base/finding.hpp>
#include <callfit/io/read_file.hpp>
#include <callfit/io/write_file.hpp>

#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace callfit {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const std::string& path, const std::string& what,
                         const std::string& mend) {
  throw InputError(Finding{{path, 0, {}}, what, mend});
}

std::string system_reason() { return std::strerror(errno); }  // NOLINT(concurrency-mt-unsafe)

}  // namespace

std::string read_file(const std::string& path) {
  std::error_code failed;
  const fs::file_status status = fs::status(path, failed);
  if (status.type() == fs::file_type::not_found)
    refuse(path, "no such file", "check the name and the folder");
  if (status.type() == fs::file_type::directory)
    refuse(path, "is a folder", "name a file inside it");
  errno = 0;
  std::ifstream in(path, std::ios::binary);
  if (!in) refuse(path, "cannot be read: " + system_reason(), "");
  std::string bytes{std::istreambuf_iterator<char>(in), {}};
  if (in.bad()) refuse(path, "cannot be read to the end: " + system_reason(), "");
  return bytes;
}

void write_file(const std::string& path, std::string_view bytes) {
  if (fs::is_directory(path)) refuse(path, "is a folder", "name a file inside it");
  const fs::path folder = fs::path(path).parent_path();
  if (!folder.empty() && !fs::is_directory(folder))
    refuse(path, "cannot be written: the folder " + folder.string() + " does not exist",
           "create it first");
  // A device or pipe cannot be renamed over: write straight into it.
  if (fs::exists(path) && !fs::is_regular_file(path)) {
    std::ofstream(path, std::ios::binary) << bytes;
    return;
  }
  const std::string temporary = path + ".part-" + std::to_string(::getpid());
  errno = 0;
  std::ofstream out(temporary, std::ios::binary | std::ios::trunc);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  std::error_code failed;
  const std::string reason = system_reason();
  if (!out) {
    fs::remove(temporary, failed);
    refuse(path, "cannot be written: " + reason, "");
  }
  fs::rename(temporary, path, failed);
  if (failed) {
    const std::string why = failed.message();
    fs::remove(temporary, failed);
    refuse(path, "cannot be written: " + why, "");
  }
}

}  // namespace callfit

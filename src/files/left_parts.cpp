#include <callfit/files/left_parts.hpp>
#include <files/part_name.hpp>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <vector>

namespace callfit {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view part_start = ".callfit-", part_end = ".part";
constexpr std::chrono::minutes old_enough{1};

bool is_number(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

bool is_old(const fs::path& file) {
  std::error_code failed;
  const auto written = fs::last_write_time(file, failed);
  return !failed && fs::file_time_type::clock::now() - written > old_enough;
}

bool removed_if_nobodys(const fs::path& file) {
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg)
  const int handle = ::open(file.c_str(), O_RDWR | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
  if (handle < 0) return false;
  const bool is_nobodys = ::flock(handle, LOCK_EX | LOCK_NB) == 0;
  const bool is_gone = is_nobodys && ::unlink(file.c_str()) == 0;
  ::close(handle);
  return is_gone;
}

}  // namespace

std::string part_name(pid_t process, int number) {
  return std::string(part_start) + std::to_string(process) + '-' + std::to_string(number) +
         std::string(part_end);
}

bool is_part_name(std::string_view name) {
  if (!name.starts_with(part_start) || !name.ends_with(part_end)) return false;
  name.remove_prefix(part_start.size());
  if (name.size() <= part_end.size()) return false;
  name.remove_suffix(part_end.size());
  const std::size_t hyphen = name.find('-');
  return hyphen != std::string_view::npos && is_number(name.substr(0, hyphen)) &&
         is_number(name.substr(hyphen + 1));
}

std::size_t remove_left_parts(const std::string& folder) {
  std::error_code failed;
  std::vector<fs::path> parts;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder, failed))
    if (is_part_name(entry.path().filename().string()) && entry.is_regular_file(failed) &&
        !entry.is_symlink(failed) && is_old(entry.path()))
      parts.push_back(entry.path());
  return static_cast<std::size_t>(std::count_if(parts.begin(), parts.end(), removed_if_nobodys));
}

}  // namespace callfit

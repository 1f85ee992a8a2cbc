#include <callfit/files/files.hpp>
#include <callfit/format/mend.hpp>
#include <files/sheet.hpp>
#include <files/stream.hpp>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <functional>

namespace callfit {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t block_size = 1U << 16U;

std::ifstream opened(const std::string& path) {
  require_file(path);
  errno = 0;
  std::ifstream in(path, std::ios::binary);
  if (!in) refuse_file(path, "cannot be read: " + system_reason(), "");
  return in;
}

/// Calls `take` with one block of the file after the other.
void read_blocks(const std::string& path, const std::function<void(std::string_view)>& take) {
  std::ifstream in = opened(path);
  std::string block(block_size, '\0');
  std::size_t length = 0;
  while (in) {
    in.read(block.data(), static_cast<std::streamsize>(block.size()));
    require_modest(path, length += static_cast<std::size_t>(in.gcount()));
    take(std::string_view(block).substr(0, static_cast<std::size_t>(in.gcount())));
  }
  if (in.bad()) refuse_file(path, "cannot be read to the end: " + system_reason(), "");
}

}  // namespace

void require_file(const std::string& path) {
  std::error_code failed;
  const fs::file_status status = fs::status(path, failed);
  if (status.type() == fs::file_type::not_found)
    refuse_file(path, "no such file", "check the name and the folder");
  if (status.type() == fs::file_type::directory)
    refuse_file(path, "is a folder", "name a file inside it");
}

void refuse_file(const std::string& path, const std::string& what, const std::string& mend) {
  throw InputError(Finding{{path, 0, {}}, what, mend});
}

std::string system_reason() { return std::strerror(errno); }  // NOLINT(concurrency-mt-unsafe)

void require_modest(const std::string& path, std::size_t bytes) {
  if (bytes > longest_file)
    refuse_file(path, "is longer than " + std::to_string(longest_file >> 20U) + " MiB",
                "give a smaller file");
}

std::string bytes_of(const std::string& path) {
  std::string bytes;
  read_blocks(path, [&](std::string_view block) { bytes += block; });
  return bytes;
}

std::string Files::read(const std::string& path) {
  will_read(path);
  return bytes_of(path);
}

std::string Files::chart_text(const std::string& path, Findings& notices) {
  std::string bytes = read(path);
  return is_workbook(bytes) ? workbook_as_csv(bytes, path, notices) : bytes;
}

Chart Files::chart(const std::string& path, Findings& notices, const ChartWords& words) {
  will_read(path);
  std::string workbook;  // whole, where it is one
  try {
    ChartReader reader(path, words);
    bool is_first = true;
    read_blocks(path, [&](std::string_view block) {
      if (!workbook.empty() || (is_first && is_workbook(block)))
        workbook += block;
      else
        reader.feed(block);
      is_first = false;
    });
    if (workbook.empty()) return reader.finish(notices);
  } catch (const InputError& refused) {
    if (!fs::is_regular_file(path)) throw;  // a pipe is read but once
    throw with_mending(refused, read(path), path, words);
  }
  return parse_chart(workbook_as_csv(workbook, path, notices), path, notices, words);
}

}  // namespace callfit

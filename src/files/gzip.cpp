#include <callfit/files/files.hpp>
#include <callfit/format/drives.hpp>
#include <callfit/format/quarterback_games.hpp>
#include <files/stream.hpp>

#include <zlib.h>

#include <algorithm>
#include <memory>

namespace callfit {
namespace {

constexpr unsigned gzip_block = 1U << 16U;

struct CloseGzip {
  void operator()(gzFile file) const { gzclose_r(file); }
};

/// What zlib says of the last read; empty where all is well.
std::string fault_of(gzFile file) {
  int code = Z_OK;
  const char* said = gzerror(file, &code);
  if (code == Z_OK || code == Z_STREAM_END) return {};
  return code == Z_ERRNO ? system_reason() : said;
}

[[noreturn]] void refuse_packed(const std::string& path, const std::string& so_far,
                                const std::string& fault) {
  const auto ends = std::count(so_far.begin(), so_far.end(), '\n');
  throw InputError(Finding{{path, static_cast<std::size_t>(ends) + 1, {}},
                           "the packed data break off in this row: " + fault,
                           "copy the file again"});
}

/// The file's text, unpacked where it is gzip. Whole before anybody reads it: what breaks off is
/// told as such, not as the odd row that it makes.
std::string unpacked(const std::string& path) {
  require_file(path);
  const std::unique_ptr<gzFile_s, CloseGzip> file(gzopen(path.c_str(), "rb"));
  if (!file) refuse_file(path, "cannot be read: " + system_reason(), "");
  std::string text;
  std::string block(gzip_block, '\0');
  int length = 0;
  do {
    length = gzread(file.get(), block.data(), gzip_block);
    text.append(block, 0, static_cast<std::size_t>(std::max(length, 0)));
    if (const std::string fault = fault_of(file.get()); !fault.empty())
      refuse_packed(path, text, fault);
    require_modest(path, text.size());
  } while (length > 0);
  return text;
}

}  // namespace

std::vector<RealDrive> Files::drives(const std::string& path) {
  will_read(path);
  DrivesReader reader(path);
  reader.feed(unpacked(path));
  return reader.finish();
}

std::vector<QuarterbackGame> Files::quarterback_games(const std::string& path) {
  will_read(path);
  return parse_quarterback_games(unpacked(path), path);
}

std::vector<QuarterbackSeason> Files::quarterback_seasons(const std::string& path) {
  will_read(path);
  return parse_quarterback_seasons(unpacked(path), path);
}

}  // namespace callfit

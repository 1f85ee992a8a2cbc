#include "packed.hpp"

#include <zip.h>
#include <zlib.h>

#include <array>
#include <memory>
#include <stdexcept>

namespace callfit::fuzz {
namespace {

constexpr std::string_view seam = "\n====\n";
constexpr std::array part_names{"xl/workbook.xml",
                                "xl/_rels/workbook.xml.rels",
                                "xl/worksheets/sheet1.xml",
                                "xl/sharedStrings.xml",
                                "xl/styles.xml",
                                "content.xml"};

struct FreeSource {
  void operator()(zip_source_t* source) const { zip_source_free(source); }
};
using Source = std::unique_ptr<zip_source_t, FreeSource>;

void require(bool done) {
  if (!done) throw std::runtime_error("cannot be packed");
}

void add(zip_t* archive, const char* name, std::string_view text) {
  zip_source_t* source = zip_source_buffer(archive, text.data(), text.size(), 0);
  require(source != nullptr);
  const zip_int64_t place = zip_file_add(archive, name, source, ZIP_FL_OVERWRITE);
  require(place >= 0);
  // Stored, so that mutations of the archive's bytes are mutations of the parts too.
  require(zip_set_file_compression(archive, static_cast<zip_uint64_t>(place), ZIP_CM_STORE, 0) ==
          0);
}

std::string bytes_of(zip_source_t* source) {
  require(zip_source_open(source) == 0);
  zip_source_seek(source, 0, SEEK_END);
  std::string bytes(static_cast<std::size_t>(zip_source_tell(source)), '\0');
  zip_source_seek(source, 0, SEEK_SET);
  const zip_int64_t length = zip_source_read(source, bytes.data(), bytes.size());
  zip_source_close(source);
  require(length == static_cast<zip_int64_t>(bytes.size()));
  return bytes;
}

}  // namespace

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i)
    text += (i > 0 ? std::string(seam) : "") + parts[i];
  return text;
}

std::string packed(std::string_view parts) {
  const Source source(zip_source_buffer_create(nullptr, 0, 0, nullptr));
  require(source != nullptr);
  zip_source_keep(source.get());
  zip_t* archive = zip_open_from_source(source.get(), ZIP_TRUNCATE, nullptr);
  require(archive != nullptr);
  for (const char* name : part_names) {
    const std::size_t end = parts.find(seam);
    if (const std::string_view text = parts.substr(0, end); !text.empty()) add(archive, name, text);
    if (end == std::string_view::npos) break;
    parts.remove_prefix(end + seam.size());
  }
  const bool holds_any = zip_get_num_entries(archive, 0) > 0;
  require(zip_close(archive) == 0);
  return holds_any ? bytes_of(source.get()) : std::string();
}

std::string gzipped(std::string_view text, int level) {
  constexpr int window = 15, as_gzip = 16, memory = 8;
  z_stream stream = {};
  require(deflateInit2(&stream, level, Z_DEFLATED, window + as_gzip, memory, Z_DEFAULT_STRATEGY) ==
          Z_OK);
  std::string bytes(deflateBound(&stream, text.size()), '\0');
  std::string in(text);  // zlib takes no constant bytes
  stream.next_in = reinterpret_cast<Bytef*>(in.data());
  stream.avail_in = static_cast<uInt>(in.size());
  stream.next_out = reinterpret_cast<Bytef*>(bytes.data());
  stream.avail_out = static_cast<uInt>(bytes.size());
  const bool done = deflate(&stream, Z_FINISH) == Z_STREAM_END;
  bytes.resize(stream.total_out);
  deflateEnd(&stream);
  require(done);
  return bytes;
}

}  // namespace callfit::fuzz

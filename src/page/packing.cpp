#include <page/packing.hpp>

#include <zlib.h>

#include <stdexcept>

namespace callfit::page {

std::string gzipped(std::string_view bytes) {
  constexpr int as_gzip = 15 + 16;  // the largest window, and gzip's frame instead of zlib's
  constexpr int memory_level = 9;
  z_stream stream{};
  if (deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, as_gzip, memory_level,
                   Z_DEFAULT_STRATEGY) != Z_OK)
    throw std::runtime_error("gzip cannot be started");
  std::string packed(deflateBound(&stream, static_cast<uLong>(bytes.size())), '\0');
  std::string plain(bytes);  // zlib's input is not const
  stream.next_in = reinterpret_cast<Bytef*>(plain.data());
  stream.avail_in = static_cast<uInt>(plain.size());
  stream.next_out = reinterpret_cast<Bytef*>(packed.data());
  stream.avail_out = static_cast<uInt>(packed.size());
  const int outcome = deflate(&stream, Z_FINISH);
  packed.resize(stream.total_out);
  deflateEnd(&stream);
  if (outcome != Z_STREAM_END) throw std::runtime_error("gzip did not end");
  return packed;
}

}  // namespace callfit::page

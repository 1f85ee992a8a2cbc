#include <callfit/draw/svg.hpp>
#include <page/digest.hpp>

#include <glib.h>

#include <memory>

namespace callfit::page {
namespace {

constexpr std::size_t sha256_bytes = 32;

std::string sha256(std::string_view bytes) {
  const std::unique_ptr<GChecksum, decltype(&g_checksum_free)> sum(
      g_checksum_new(G_CHECKSUM_SHA256), g_checksum_free);
  g_checksum_update(sum.get(), reinterpret_cast<const guchar*>(bytes.data()),
                    static_cast<gssize>(bytes.size()));
  std::string digest(sha256_bytes, '\0');
  gsize size = digest.size();
  g_checksum_get_digest(sum.get(), reinterpret_cast<guint8*>(digest.data()), &size);
  return digest;
}

}  // namespace

std::string sha256_hex(std::string_view bytes) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string hex;
  for (const char c : sha256(bytes)) {
    const auto byte = static_cast<unsigned char>(c);
    hex += digits[byte >> 4U];
    hex += digits[byte & 15U];
  }
  return hex;
}

std::string policy_hash(std::string_view bytes) { return "'sha256-" + base64(sha256(bytes)) + "'"; }

}  // namespace callfit::page

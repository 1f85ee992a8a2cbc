#include <callfit/desk/http.hpp>

#include <algorithm>
#include <cctype>

namespace callfit::desk {
namespace {

bool is_same_name(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](unsigned char x, unsigned char y) {
    return std::tolower(x) == std::tolower(y);
  });
}

}  // namespace

std::string_view Call::header(std::string_view name) const {
  for (const auto& [own, value] : headers)
    if (is_same_name(own, name)) return value;
  return {};
}

std::size_t Call::count(std::string_view name) const {
  return static_cast<std::size_t>(
      std::count_if(headers.begin(), headers.end(),
                    [name](const auto& one) { return is_same_name(one.first, name); }));
}

const std::vector<std::pair<std::string, std::string>>& guarding_headers() {
  static const std::vector<std::pair<std::string, std::string>> headers{
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; "
       "img-src 'self' data:; media-src 'self'; base-uri 'none'; form-action 'none'; "
       "frame-ancestors 'none'"},
      {"X-Content-Type-Options", "nosniff"},
      {"X-Frame-Options", "DENY"},
      {"Referrer-Policy", "no-referrer"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Cache-Control", "no-store"}};
  return headers;
}

}  // namespace callfit::desk

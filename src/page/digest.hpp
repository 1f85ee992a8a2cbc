// SHA-256 (FIPS 180-4), for who holds a file against its name and for the policy of a page.
#pragma once

#include <string>
#include <string_view>

namespace callfit::page {

std::string sha256_hex(std::string_view bytes);
/// As a Content-Security-Policy names a script or a style: 'sha256-...' in base64.
std::string policy_hash(std::string_view bytes);

}  // namespace callfit::page

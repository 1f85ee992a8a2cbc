// One HTTP exchange as plain values, so that what a page may ask is decided without a socket.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace callfit::desk {

struct Call {
  std::string method;  ///< "GET"
  std::string target;  ///< as sent: path and query
  std::vector<std::pair<std::string, std::string>> headers;
  std::string body;

  /// The value of a header, whatever the case of its name; empty where it is missing.
  std::string_view header(std::string_view name) const;
  /// How often it was sent.
  std::size_t count(std::string_view name) const;
};

struct Reply {
  int status = 200;
  std::string type = "application/json";
  std::string body;
  std::vector<std::pair<std::string, std::string>> headers = {};  ///< besides the guarding ones
};

/// What every reply carries besides its type: nothing may be framed, kept, guessed at or loaded
/// from elsewhere.
const std::vector<std::pair<std::string, std::string>>& guarding_headers();

}  // namespace callfit::desk

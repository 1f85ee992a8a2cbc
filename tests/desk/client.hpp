// Hand-made HTTP: bytes to a port of this machine, bytes back.
#pragma once

#include <chrono>
#include <cstdint>
#include <string>

namespace callfit::test {

class Line {
 public:
  explicit Line(std::uint16_t port);
  ~Line();
  Line(const Line&) = delete;
  Line& operator=(const Line&) = delete;

  /// Whether all bytes were taken.
  bool send(const std::string& bytes) const;
  /// Until the other side closes, or nothing came for so long.
  std::string rest(std::chrono::milliseconds patience) const;

 private:
  int handle_ = -1;
};

/// One exchange that asks for the connection to be closed.
std::string exchange(std::uint16_t port, const std::string& bytes);

/// 200 of "HTTP/1.1 200 OK..."; 0 where there is none.
int status_of(const std::string& reply);

}  // namespace callfit::test

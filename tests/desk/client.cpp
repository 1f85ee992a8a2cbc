#include "client.hpp"

#include <arpa/inet.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <stdexcept>

namespace callfit::test {

Line::Line(std::uint16_t port) : handle_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  sockaddr_in place{};
  place.sin_family = AF_INET;
  place.sin_port = htons(port);
  place.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  if (handle_ < 0 || ::connect(handle_, reinterpret_cast<sockaddr*>(&place), sizeof place) != 0)
    throw std::runtime_error("nobody listens");
}

Line::~Line() { ::close(handle_); }

bool Line::send(const std::string& bytes) const {
  std::size_t sent = 0;
  while (sent < bytes.size()) {
    const ssize_t took = ::send(handle_, bytes.data() + sent, bytes.size() - sent, MSG_NOSIGNAL);
    if (took <= 0) return false;
    sent += static_cast<std::size_t>(took);
  }
  return true;
}

std::string Line::rest(std::chrono::milliseconds patience) const {
  std::string all;
  std::array<char, 4096> block{};
  pollfd wait{handle_, POLLIN, 0};
  while (::poll(&wait, 1, static_cast<int>(patience.count())) > 0) {
    const ssize_t got = ::recv(handle_, block.data(), block.size(), 0);
    if (got <= 0) break;
    all.append(block.data(), static_cast<std::size_t>(got));
  }
  return all;
}

std::string exchange(std::uint16_t port, const std::string& bytes) {
  const Line line(port);
  line.send(bytes);
  return line.rest(std::chrono::seconds(60));
}

int status_of(const std::string& reply) {
  return reply.starts_with("HTTP/1.1 ") && reply.size() > 12 ? std::stoi(reply.substr(9, 3)) : 0;
}

}  // namespace callfit::test

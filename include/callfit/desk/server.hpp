// What listens on the loopback: HTTP/1.1 by Boost.Beast, one thread, every wait with an end.
#pragma once

#include <callfit/desk/http.hpp>

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>

namespace callfit::desk {

struct Limits {
  std::size_t body = std::size_t{1} << 20;  ///< bytes
  std::size_t headers = 8192;               ///< bytes
  std::size_t connections = 64;             ///< at once; more are closed unanswered
  std::chrono::seconds wait{10};            ///< for a whole request, and for a reply to be taken
};

using Handler = std::function<Reply(const Call&)>;

class Server {
 public:
  /// Listens on 127.0.0.1, at a free port unless one is named. Throws InputError where it cannot.
  explicit Server(std::uint16_t port = 0, const Limits& limits = {});
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  std::uint16_t port() const;

  /// Answers until stop(), or until the process is interrupted (SIGINT, SIGTERM).
  void run(const Handler& handler);
  /// Safe from another thread.
  void stop();

 private:
  class Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace callfit::desk

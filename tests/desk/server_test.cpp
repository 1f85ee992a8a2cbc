// What arrives at the socket, before anything is asked of a case.
#include "client.hpp"

#include <callfit/desk/server.hpp>

#include <catch2/catch.hpp>

#include <memory>
#include <thread>
#include <vector>

using namespace callfit::desk;
using namespace callfit::test;

namespace {

// A server that says what it was called with, on a thread of its own.
class Running {
 public:
  explicit Running(const Limits& limits = {})
      : server_(0, limits), thread_([this] {
          server_.run([](const Call& call) {
            return Reply{200, "text/plain", call.method + ' ' + call.target + ' ' + call.body};
          });
        }) {}
  ~Running() {
    server_.stop();
    thread_.join();
  }
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;

  std::uint16_t port() const { return server_.port(); }

 private:
  Server server_;
  std::thread thread_;
};

Limits quick() {
  Limits limits;
  limits.wait = std::chrono::seconds(1);
  return limits;
}

std::string get(const std::string& target) {
  return "GET " + target + " HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n";
}

}  // namespace

TEST_CASE("a request is answered, with the guarding headers") {
  const Running running;
  const std::string reply = exchange(running.port(), get("/a?b"));
  CHECK(status_of(reply) == 200);
  CHECK(reply.find("GET /a?b ") != std::string::npos);
  for (const auto& [name, value] : guarding_headers())
    CHECK(reply.find(name + ": " + value + "\r\n") != std::string::npos);
}

TEST_CASE("several requests share a line") {
  const Running running;
  const Line line(running.port());
  REQUIRE(line.send("GET /one HTTP/1.1\r\nHost: x\r\n\r\n" + get("/two")));
  const std::string replies = line.rest(std::chrono::seconds(10));
  CHECK(replies.find("GET /one") != std::string::npos);
  CHECK(replies.find("GET /two") != std::string::npos);
}

TEST_CASE("what is no HTTP is refused, and the next one is answered") {
  const Running running(quick());
  for (const std::string& bytes :
       {std::string("hello\r\n\r\n"), std::string("GET\r\n\r\n"), std::string(200, '\0'),
        std::string("GET / HTTP/9.9\r\n\r\n"),
        std::string("POST / HTTP/1.1\r\nContent-Length: -1\r\n\r\n"),
        std::string("POST / HTTP/1.1\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\nab"),
        std::string("POST / HTTP/1.1\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n")}) {
    const int status = status_of(exchange(running.port(), bytes));
    CHECK((status == 400 || status == 0));
  }
  CHECK(status_of(exchange(running.port(), get("/"))) == 200);
}

TEST_CASE("headers and bodies end somewhere") {
  const Running running(quick());
  const std::string long_header =
      "GET / HTTP/1.1\r\nHost: x\r\nA: " + std::string(20'000, 'a') + "\r\n\r\n";
  CHECK(status_of(exchange(running.port(), long_header)) != 200);
  const std::string long_body =
      "POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 2000000\r\n\r\n" + std::string(70'000, 'a');
  CHECK(status_of(exchange(running.port(), long_body)) == 413);
  CHECK(status_of(exchange(running.port(), get("/"))) == 200);
}

TEST_CASE("a request that never ends is not waited for, and holds nobody up", "[plain]") {
  const Running running(quick());
  const Line slow(running.port());
  REQUIRE(slow.send("GET / HTTP/1.1\r\nHost: "));
  CHECK(status_of(exchange(running.port(), get("/"))) == 200);
  const auto from = std::chrono::steady_clock::now();
  CHECK(slow.rest(std::chrono::seconds(30)).empty());
  CHECK(std::chrono::steady_clock::now() - from < std::chrono::seconds(20));
}

TEST_CASE("more lines than the limit are closed unanswered, and room is made again", "[plain]") {
  Limits limits = quick();
  limits.connections = 4;
  const Running running(limits);
  std::vector<std::unique_ptr<Line>> held;
  for (int i = 0; i < 4; ++i) {
    held.push_back(std::make_unique<Line>(running.port()));
    held.back()->send("GET / HTTP/1.1\r\n");
  }
  CHECK(status_of(exchange(running.port(), get("/"))) == 0);
  held.clear();
  int status = 0;
  for (int tries = 0; tries < 50 && status != 200; ++tries) {
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
    status = status_of(exchange(running.port(), get("/")));
  }
  CHECK(status == 200);
}

TEST_CASE("a thousand at once are answered or refused", "[plain]") {
  const Running running;
  int answered = 0;
  std::vector<std::unique_ptr<Line>> lines;
  for (int i = 0; i < 1000; ++i) {
    lines.push_back(std::make_unique<Line>(running.port()));
    lines.back()->send(get("/" + std::to_string(i)));
  }
  for (const auto& line : lines) {
    const std::string reply = line->rest(std::chrono::seconds(20));
    CHECK((reply.empty() || status_of(reply) == 200));
    if (!reply.empty()) ++answered;
  }
  CHECK(answered > 0);
  CHECK(status_of(exchange(running.port(), get("/after"))) == 200);
}

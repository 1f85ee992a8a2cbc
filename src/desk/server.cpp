#include <callfit/base/finding.hpp>
#include <callfit/desk/server.hpp>

#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>

#include <csignal>
#include <optional>

namespace callfit::desk {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using asio::ip::tcp;
using boost::system::error_code;

Call call_of(const http::request<http::string_body>& request) {
  Call call;
  call.method = std::string(request.method_string());
  call.target = std::string(request.target());
  for (const auto& field : request)
    call.headers.emplace_back(std::string(field.name_string()), std::string(field.value()));
  call.body = request.body();
  return call;
}

http::response<http::string_body> response_of(const Reply& reply, bool keep_open) {
  http::response<http::string_body> response;
  response.version(11);
  response.result(static_cast<unsigned>(reply.status));
  response.set(http::field::content_type, reply.type);
  for (const auto& [name, value] : guarding_headers()) response.set(name, value);
  for (const auto& [name, value] : reply.headers) response.set(name, value);
  response.keep_alive(keep_open);
  response.body() = reply.body;
  response.prepare_payload();
  return response;
}

// One connection: a request, its reply, and the next one, each within the limit of time.
class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(tcp::socket socket, const Handler& handler, const Limits& limits, std::size_t& open)
      : stream_(std::move(socket)), handler_(handler), limits_(limits), open_(open) {
    ++open_;
  }
  ~Connection() { --open_; }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  void read() {
    parser_.emplace();
    parser_->header_limit(static_cast<std::uint32_t>(limits_.headers));
    parser_->body_limit(limits_.body);
    stream_.expires_after(limits_.wait);
    http::async_read(stream_, buffer_, *parser_,
                     [self = shared_from_this()](const error_code& error, std::size_t) {
                       self->have_read(error);
                     });
  }

 private:
  void have_read(const error_code& error) {
    if (error == http::error::body_limit) return refuse({413, "text/plain", "too long\n"});
    if (error == http::error::header_limit)
      return refuse({431, "text/plain", "headers too long\n"});
    if (error && is_of_the_line(error)) return close();
    if (error) return refuse({400, "text/plain", "not HTTP\n"});
    const auto& request = parser_->get();
    write(handler_(call_of(request)), request.keep_alive());
  }

  // Ended, broken off or overdue: nobody is there to be told.
  static bool is_of_the_line(const error_code& error) {
    return error == http::error::end_of_stream || error == beast::error::timeout ||
           error.category() == asio::error::get_system_category();
  }

  void write(const Reply& reply, bool keep_open) {
    response_ = response_of(reply, keep_open);
    stream_.expires_after(limits_.wait);
    http::async_write(stream_, response_,
                      [self = shared_from_this(), keep_open](const error_code& error, std::size_t) {
                        if (error || !keep_open) return self->close();
                        self->read();
                      });
  }

  // What is still on its way is taken and left, else the reply would be lost with it.
  void refuse(const Reply& reply) {
    has_rest_ = true;
    write(reply, false);
  }

  void close() {
    error_code ignored;
    stream_.socket().shutdown(tcp::socket::shutdown_send, ignored);
    if (!has_rest_) return;
    stream_.expires_after(limits_.wait);
    drain();
  }

  void drain() {
    constexpr std::size_t block = 4096;
    buffer_.clear();
    stream_.async_read_some(buffer_.prepare(block),
                            [self = shared_from_this()](const error_code& error, std::size_t) {
                              if (!error) self->drain();
                            });
  }

  beast::tcp_stream stream_;
  beast::flat_buffer buffer_;
  std::optional<http::request_parser<http::string_body>> parser_;
  http::response<http::string_body> response_;
  bool has_rest_ = false;
  const Handler& handler_;
  const Limits& limits_;
  std::size_t& open_;
};

}  // namespace

class Server::Inside {
 public:
  Inside(std::uint16_t port, const Limits& limits) : limits_(limits), acceptor_(context_) {
    try {
      const tcp::endpoint place(asio::ip::address_v4::loopback(), port);
      acceptor_.open(place.protocol());
      acceptor_.set_option(tcp::acceptor::reuse_address(port != 0));
      acceptor_.bind(place);
      acceptor_.listen();
    } catch (const boost::system::system_error& error) {
      throw InputError(Finding{{"127.0.0.1:" + std::to_string(port), 0, ""},
                               "cannot be listened on: " + error.code().message(),
                               "leave the port out: a free one is taken"});
    }
  }

  std::uint16_t port() const { return acceptor_.local_endpoint().port(); }

  void run(const Handler& handler) {
    asio::signal_set signals(context_, SIGINT, SIGTERM);
    signals.async_wait([this](const error_code& error, int) {
      if (!error) context_.stop();
    });
    accept(handler);
    context_.run();
  }

  void stop() {
    asio::post(context_, [this] { context_.stop(); });
  }

 private:
  void accept(const Handler& handler) {
    acceptor_.async_accept([this, &handler](const error_code& error, tcp::socket socket) {
      if (error == asio::error::operation_aborted) return;
      // Too many at once: the socket closes as it goes out of scope.
      if (!error && open_ < limits_.connections)
        std::make_shared<Connection>(std::move(socket), handler, limits_, open_)->read();
      accept(handler);
    });
  }

  Limits limits_;
  std::size_t open_ = 0;  // outlives the connections, which the context holds
  asio::io_context context_{1};
  tcp::acceptor acceptor_;
};

Server::Server(std::uint16_t port, const Limits& limits)
    : inside_(std::make_unique<Inside>(port, limits)) {}
Server::~Server() = default;
std::uint16_t Server::port() const { return inside_->port(); }
void Server::run(const Handler& handler) { inside_->run(handler); }
void Server::stop() { inside_->stop(); }

}  // namespace callfit::desk

#include <callfit/desk/gate.hpp>

#include <catch2/catch.hpp>

using callfit::desk::Call;
using callfit::desk::Gate;

namespace {

const std::string token(64, 'a');
const Gate gate(token, 8000);

Call question() {
  return {"POST",
          "/view",
          {{"Host", "127.0.0.1:8000"},
           {"Origin", "http://127.0.0.1:8000"},
           {"Content-Type", "application/json"},
           {"X-Callfit-Token", token}},
          "{}"};
}

Call with(Call call, const std::string& name, const std::string& value) {
  for (auto& [own, had] : call.headers)
    if (own == name) {
      had = value;
      return call;
    }
  call.headers.emplace_back(name, value);
  return call;
}

Call without(Call call, const std::string& name) {
  std::erase_if(call.headers, [&name](const auto& one) { return one.first == name; });
  return call;
}

int refused(const Call& call, bool is_page_file = false) {
  const auto refusal = gate.refusal(call, is_page_file);
  return refusal ? refusal->status : 0;
}

}  // namespace

TEST_CASE("the page that was opened gets in") {
  CHECK(refused(question()) == 0);
  CHECK(refused(with(with(question(), "Host", "localhost:8000"), "Origin",
                     "http://localhost:8000")) == 0);
  CHECK(refused({"GET", "/", {{"Host", "127.0.0.1:8000"}}, ""}, true) == 0);
}

TEST_CASE("a host that is not the desk's own is refused, whatever its address") {
  for (const char* host : {"example.test:8000", "127.0.0.1", "127.0.0.1:8001", "127.0.0.1:8000.",
                           "[::1]:8000", "127.1:8000", "", "127.0.0.1:8000@example.test"})
    CHECK(refused(with(question(), "Host", host)) == 421);
  CHECK(refused(without(question(), "Host")) == 421);
  Call twice = question();
  twice.headers.emplace_back("Host", "127.0.0.1:8000");
  CHECK(refused(twice) == 421);
  CHECK(refused({"GET", "/", {{"Host", "example.test:8000"}}, ""}, true) == 421);
}

TEST_CASE("another page may not ask, even with the token") {
  for (const char* origin : {"http://example.test", "null", "https://127.0.0.1:8000",
                             "http://127.0.0.1:8001", "http://localhost:8000", ""})
    CHECK(refused(with(question(), "Origin", origin)) == 403);
  CHECK(refused(with(question(), "Sec-Fetch-Site", "cross-site")) == 403);
  CHECK(refused(with(question(), "Sec-Fetch-Site", "same-site")) == 403);
  CHECK(refused(with(question(), "Sec-Fetch-Site", "same-origin")) == 0);
}

TEST_CASE("without the token nothing of the case is told") {
  CHECK(refused(without(question(), "X-Callfit-Token")) == 403);
  for (const std::string& wrong : {std::string(), std::string(64, 'b'), token + "a",
                                   token.substr(1), std::string(63, 'a') + 'A'})
    CHECK(refused(with(question(), "X-Callfit-Token", wrong)) == 403);
  CHECK(Gate("", 8000).refusal(with(question(), "X-Callfit-Token", ""), false).has_value());
}

TEST_CASE("film is read by players of this page alone: the token ends its target") {
  const auto film = [](const std::string& end) {
    return Call{"GET", "/film/1/" + end, {{"Host", "127.0.0.1:8000"}}, ""};
  };
  CHECK(refused(film(token)) == 0);
  CHECK(refused(film("")) == 403);
  CHECK(refused(film(token + "/")) == 403);
  CHECK(refused(film(std::string(64, 'b'))) == 403);
  CHECK(refused(with(film(token), "Host", "example.test:8000")) == 421);
  CHECK(refused(with(film(token), "Origin", "http://example.test")) == 403);
  CHECK(refused(with(film(token), "Sec-Fetch-Site", "cross-site")) == 403);
  Call post = film(token);
  post.method = "POST";
  CHECK(refused(post) == 405);
}

TEST_CASE("only what a page's script can send as such is a question") {
  Call call = question();
  for (const char* method : {"GET", "PUT", "DELETE", "OPTIONS", "HEAD"}) {
    call.method = method;
    CHECK(refused(call) == 405);
  }
  CHECK(refused(with(question(), "Content-Type", "text/plain")) == 415);
  CHECK(refused(without(question(), "Content-Type")) == 415);
  CHECK(refused({"POST", "/", {{"Host", "127.0.0.1:8000"}}, ""}, true) == 405);
}

TEST_CASE("no reply allows another origin, and every reply forbids what the page does not need") {
  std::string policy;
  for (const auto& [name, value] : callfit::desk::guarding_headers()) {
    CHECK(name.find("Access-Control") == std::string::npos);
    if (name == "Content-Security-Policy") policy = value;
  }
  CHECK(policy.starts_with("default-src 'none'"));
  CHECK(policy.find("unsafe") == std::string::npos);
  CHECK(policy.find("frame-ancestors 'none'") != std::string::npos);
}

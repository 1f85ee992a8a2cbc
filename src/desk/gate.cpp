#include <callfit/base/finding.hpp>
#include <callfit/desk/gate.hpp>
#include <callfit/report/door.hpp>

namespace callfit::desk {
namespace {

Reply refused(int status, const std::string& what) {
  const Finding finding{{}, what, "open the address that was printed"};
  return {status, "application/json", error_document(InputError(finding))};
}

}  // namespace

Gate::Gate(std::string token, std::uint16_t port)
    : token_(std::move(token)),
      address_("127.0.0.1:" + std::to_string(port)),
      name_("localhost:" + std::to_string(port)) {}

std::optional<Reply> Gate::refusal(const Call& call, bool is_page_file) const {
  if (call.count("Host") != 1 || !is_own_host(call.header("Host")))
    return refused(421, "this is not the host that was asked for");
  const std::string_view host = call.header("Host");
  if (call.count("Origin") > 1 ||
      (call.count("Origin") == 1 && call.header("Origin") != "http://" + std::string(host)))
    return refused(403, "another page may not ask");
  const std::string_view site = call.header("Sec-Fetch-Site");
  if (!site.empty() && site != "same-origin" && site != "none")
    return refused(403, "another page may not ask");
  if (is_page_file) {
    if (call.method != "GET") return refused(405, "a page's file is only read (GET)");
    return std::nullopt;
  }
  if (call.target.starts_with(film_target)) {
    if (!has_token(std::string_view(call.target).substr(call.target.rfind('/') + 1)))
      return refused(403, "the token is missing or is not this desk's");
    if (call.method != "GET") return refused(405, "film is only read (GET)");
    return std::nullopt;
  }
  if (call.count(token_header) != 1 || !has_token(call.header(token_header)))
    return refused(403, "the token is missing or is not this desk's");
  if (call.method != "POST") return refused(405, "questions are sent as POST");
  if (call.header("Content-Type") != "application/json")
    return refused(415, "questions are sent as application/json");
  return std::nullopt;
}

bool Gate::is_own_host(std::string_view host) const { return host == address_ || host == name_; }

// Every character is looked at, so that the time taken tells nothing of where they differ.
bool Gate::has_token(std::string_view token) const {
  if (token.size() != token_.size()) return false;
  std::size_t differing = 0;
  for (std::size_t i = 0; i < token.size(); ++i) differing += token[i] == token_[i] ? 0U : 1U;
  return differing == 0 && !token.empty();
}

}  // namespace callfit::desk

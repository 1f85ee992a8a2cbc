// Who gets in: the page that this desk opened, and nobody else.
#pragma once

#include <callfit/desk/http.hpp>

#include <cstdint>
#include <optional>
#include <string>

namespace callfit::desk {

/// The header that carries the token. A page elsewhere cannot send it without being asked first
/// (CORS), and this desk never says yes.
inline constexpr std::string_view token_header = "X-Callfit-Token";

/// What targets of film begin with: "/film/1/TOKEN".
inline constexpr std::string_view film_target = "/film/";

class Gate {
 public:
  /// `token` is known to the opened page alone; `port` is where the desk listens.
  Gate(std::string token, std::uint16_t port);

  /// The refusal of a call, or nothing. Host and Origin must be the desk's own (a name that was
  /// bound to this machine by somebody else is not); what is not a page file needs the token, JSON,
  /// POST; but film, which players ask for themselves, is read (GET) and has the token at the end
  /// of its target.
  std::optional<Reply> refusal(const Call& call, bool is_page_file) const;

 private:
  bool is_own_host(std::string_view host) const;
  bool has_token(std::string_view token) const;

  std::string token_;
  std::string address_, name_;  ///< "127.0.0.1:8000", "localhost:8000"
};

}  // namespace callfit::desk

#include "cli/console.hpp"

#include <callfit/base/gathered.hpp>

#include <nlohmann/json.hpp>

#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <iostream>

namespace callfit::cli {

void print_notices(const Findings& all) {
  const Findings notices = gathered(all);
  const std::size_t shown = std::min(notices.size(), InputError::shown_at_most);
  for (std::size_t i = 0; i < shown; ++i) std::cerr << to_text(notices[i]) << '\n';
  if (notices.size() > shown) std::cerr << "... and " << notices.size() - shown << " more\n";
}

Progress progress_line(const std::string& what) {
  if (isatty(STDERR_FILENO) == 0) return {};
  using Clock = std::chrono::steady_clock;
  return [what, last = Clock::time_point{}](std::size_t done, std::size_t total) mutable {
    const bool over = done == total;
    if (!over && Clock::now() - last < std::chrono::milliseconds(100)) return;
    last = Clock::now();
    // Straight to the terminal: the stream would write the control characters out.
    std::string line = '\r' + what + ' ' + std::to_string(100 * done / total) + '%';
    if (over) line += "\r\033[K";
    std::fputs(line.c_str(), stderr);
  };
}

void print_json(const std::string& command, const nlohmann::ordered_json& request,
                const nlohmann::ordered_json& result) {
  const nlohmann::ordered_json document{{"format", "callfit-result/1"},
                                        {"command", command},
                                        {"version", CALLFIT_VERSION},
                                        {"request", request},
                                        {"result", result}};
  std::cout << document.dump(2) << '\n';
}

}  // namespace callfit::cli

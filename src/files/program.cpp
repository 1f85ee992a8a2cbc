#include <files/program.hpp>

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <string_view>
#include <system_error>

namespace callfit {
namespace {

constexpr std::size_t remembered = 4096;  // bytes of what was said last

[[noreturn]] void refuse_to_run(int error, const std::string& program) {
  throw std::system_error(error, std::generic_category(), program + " cannot be started");
}

/// While it lives, Ctrl-C is for the program that was started: as system() of POSIX has it.
class InterruptsLeft {
 public:
  InterruptsLeft() {
    struct sigaction ignored = {};
    ignored.sa_handler = SIG_IGN;  // NOLINT: a macro of the system
    sigaction(SIGINT, &ignored, &before_);
  }
  ~InterruptsLeft() { sigaction(SIGINT, &before_, nullptr); }
  InterruptsLeft(const InterruptsLeft&) = delete;
  InterruptsLeft& operator=(const InterruptsLeft&) = delete;

 private:
  struct sigaction before_ = {};
};

/// How the program starts: standard error into a pipe, interrupts as usual.
class Start {
 public:
  explicit Start(int said) {
    posix_spawn_file_actions_init(&actions_);
    posix_spawn_file_actions_addopen(&actions_, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions_, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_adddup2(&actions_, said, STDERR_FILENO);
    sigset_t usual;
    sigemptyset(&usual);
    sigaddset(&usual, SIGINT);
    posix_spawnattr_init(&attributes_);
    posix_spawnattr_setsigdefault(&attributes_, &usual);
    posix_spawnattr_setflags(&attributes_, POSIX_SPAWN_SETSIGDEF);
  }
  ~Start() {
    posix_spawn_file_actions_destroy(&actions_);
    posix_spawnattr_destroy(&attributes_);
  }
  Start(const Start&) = delete;
  Start& operator=(const Start&) = delete;

  int operator()(pid_t& child, const std::vector<std::string>& words) const {
    std::vector<std::string> own = words;  // the system's words are not const
    std::vector<char*> pointers;
    pointers.reserve(own.size() + 1);
    for (std::string& word : own) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    return posix_spawnp(&child, pointers.front(), &actions_, &attributes_, pointers.data(),
                        environ);
  }

 private:
  posix_spawn_file_actions_t actions_{};
  posix_spawnattr_t attributes_{};
};

std::string last_bytes(int from) {
  std::string said;
  std::array<char, remembered> block{};
  for (;;) {
    const ssize_t length = read(from, block.data(), block.size());
    if (length == 0 || (length < 0 && errno != EINTR)) return said;
    if (length < 0) continue;
    said.append(block.data(), static_cast<std::size_t>(length));
    if (said.size() > remembered) said.erase(0, said.size() - remembered);
  }
}

std::string last_line_of(std::string_view text) {
  const std::size_t end = text.find_last_not_of("\r\n ");
  if (end == std::string_view::npos) return "";
  text = text.substr(0, end + 1);
  const std::size_t before = text.find_last_of("\r\n");
  return std::string(before == std::string_view::npos ? text : text.substr(before + 1));
}

bool ended_well(pid_t child) {
  int status = 0;
  while (waitpid(child, &status, 0) < 0)
    if (errno != EINTR) return false;
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

}  // namespace

std::optional<Ended> run_program(const std::vector<std::string>& words) {
  std::array<int, 2> ends{};
  if (pipe2(ends.data(), O_CLOEXEC) != 0) refuse_to_run(errno, words.front());
  const InterruptsLeft interrupts;
  pid_t child = 0;
  const int error = Start(ends[1])(child, words);
  close(ends[1]);
  if (error != 0) {
    close(ends[0]);
    if (error == ENOENT || error == EACCES || error == ENOTDIR) return std::nullopt;
    refuse_to_run(error, words.front());
  }
  Ended ended;
  ended.last_line = last_line_of(last_bytes(ends[0]));
  close(ends[0]);
  ended.well = ended_well(child);
  return ended;
}

}  // namespace callfit

// The subcommands. Each takes the words after its name and returns an exit code.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace callfit::cli {

using Words = std::vector<std::string>;

inline constexpr int exit_ok = 0;
inline constexpr int exit_input = 1;  ///< bad input: chart, scheme, setting, profile
inline constexpr int exit_usage = 2;  ///< the call's words are off
inline constexpr int exit_fault = 3;  ///< a fault of the program itself

struct Command {
  std::string_view name;
  std::string_view summary;
  int (*run)(const Words& words);
};

/// Every subcommand, in the order an analyst uses them.
std::span<const Command> commands();

int answer_command(const Words& words);
int check_command(const Words& words);
int desk_command(const Words& words);
int next_command(const Words& words);
int page_command(const Words& words);
int read_command(const Words& words);
int trend_command(const Words& words);
int try_command(const Words& words);
int validate_command(const Words& words);

}  // namespace callfit::cli

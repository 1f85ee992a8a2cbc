// Words in, exit code out: finds the subcommand and turns what it throws into one clear line.
#include "cli/commands.hpp"
#include "cli/inputs.hpp"
#include "cli/terminal.hpp"

#include "commit.hpp"

#include <callfit/base/finding.hpp>
#include <callfit/base/nearest.hpp>
#include <callfit/format/csv.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/table.hpp>

#include <boost/algorithm/string/join.hpp>
#include <boost/program_options/errors.hpp>

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <iostream>

namespace callfit::cli {
namespace {

void print_help(Files& disk) {
  std::cout << "callfit COMMAND [words]\n\n"
            << wrapped(
                   "Turns charted snaps of a quarterback into rates with honest intervals, holds "
                   "them against what a coordinator's scheme demands, plays out drives, and draws "
                   "the answer. `callfit COMMAND --help` tells more, with an example; `callfit "
                   "--help WORD` "
                   "what a word of the answers means.",
                   96)
            << "\nCommands\n";
  for (const Command& command : commands()) {
    std::string name(command.name);
    name.resize(12, ' ');
    std::cout << "  " << name << command.summary << '\n';
  }
  std::cout << "\nWords\n" << wrapped(boost::join(words_known(disk), ", "), 96);
  std::cout << "\nExit codes: 0 done, 1 bad input, 2 wrong usage, 3 a fault of the program\n\n"
            << wrapped(cautions_text(), 96);
}

// Built from what is no commit, a tarball without one, the version stands alone.
std::string version_text() {
  const std::string commit = CALLFIT_COMMIT;
  return "callfit " CALLFIT_VERSION + (commit.empty() ? "" : " (" + commit + ")") + '\n';
}

int unknown_command(const std::string& name) {
  Words names;
  for (const Command& command : commands()) names.emplace_back(command.name);
  std::cerr << "callfit: unknown command " << name << "; " << suggest(name, names) << '\n';
  return exit_usage;
}

int dispatch(const Words& words) {
  if (words.empty() || words.front() == "--help" || words.front() == "-h") {
    Files disk;
    if (words.size() > 1)
      std::cout << meaning_of(disk, words[1]);
    else
      print_help(disk);
    return words.empty() ? exit_usage : exit_ok;
  }
  if (words.front() == "--version") {
    std::cout << version_text();
    return exit_ok;
  }
  const auto list = commands();
  const auto found = std::find_if(list.begin(), list.end(), [&](const Command& command) {
    return command.name == words.front();
  });
  if (found == list.end()) return unknown_command(words.front());
  return found->run(Words(words.begin() + 1, words.end()));
}

int run(const Words& words) {
  try {
    return dispatch(words);
  } catch (const InputError& error) {
    std::cerr << error.what() << '\n';
    return exit_input;
  } catch (const boost::program_options::error& error) {
    std::cerr << "callfit: " << error.what() << "; --help lists what is known\n";
    return exit_usage;
  } catch (const std::filesystem::filesystem_error& error) {
    std::cerr << error.path1().string() << ": " << error.code().message() << '\n';
    return exit_input;
  } catch (const std::exception& error) {
    std::cerr << "callfit: a fault of the program: " << error.what() << '\n';
    return exit_fault;
  }
}

// Names of files and men go into documents, and these are UTF-8.
bool is_text(const std::string& word) {
  if (is_utf8_text(word)) return true;
  std::cerr << "callfit: a word of the call is not UTF-8 text: " << word << '\n';
  return false;
}

// Told before anything is done: the next file that is opened would take the place of the output.
bool output_is_open() {
  if (fcntl(STDOUT_FILENO, F_GETFD) != -1)
    return true;  // NOLINT(cppcoreguidelines-pro-type-vararg)
  std::cerr << "callfit: standard output is closed; direct it to a file or to /dev/null\n";
  return false;
}

// A full disk must not look like success.
bool output_arrived() {
  if (std::cout.flush()) return true;
  std::cerr << "callfit: standard output could not be written to the end; the result is not "
               "complete\n";
  return false;
}

}  // namespace
}  // namespace callfit::cli

int main(int count, char** values) {
  using namespace callfit::cli;
  if (!output_is_open()) return exit_input;
  const Visible out(std::cout), err(std::cerr);
  const Words words(values + std::min(count, 1), values + count);
  if (!std::all_of(words.begin(), words.end(), is_text)) return exit_usage;
  const int code = run(words);
  return output_arrived() || code != exit_ok ? code : exit_input;
}

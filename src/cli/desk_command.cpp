// The desk: a page on the loopback for one case, until it is interrupted.
#include "cli/case_words.hpp"
#include "cli/inputs.hpp"

#include <callfit/desk/desk.hpp>
#include <callfit/desk/gate.hpp>
#include <callfit/desk/server.hpp>
#include <callfit/format/json.hpp>

#include <spawn.h>
#include <sys/random.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <iostream>

namespace callfit::cli {
namespace {

namespace fs = std::filesystem;

Options desk_options() {
  Options options(
      {"desk [CASE|FOLDER] [--no-open] [--port N]",
       "Opens a page on this machine alone, where the picture is the control: drag what is asked, "
       "how often a family is called, what the man does, and see what becomes of it. Tries are "
       "kept "
       "in the case. A folder stands for the case in it; without a word it is this folder. Ctrl-C "
       "ends it.",
       "  callfit desk profiles/demo\n"
       "  callfit desk case.json --no-open"});
  add_case_options(options);
  options.add()("no-open", "print the address, open nothing")(
      "port", po::value<std::uint16_t>()->default_value(0, "a free one")->value_name("N"),
      "where to listen on 127.0.0.1");
  return options;
}

bool is_case(Files& disk, const fs::path& file) {
  if (file.extension() != ".json" || !fs::is_regular_file(file)) return false;
  try {
    return format_of(disk.read(file.string()), file.string()) == "callfit-case/1";
  } catch (const InputError&) {
    return false;
  }
}

// The case that a folder holds: case.json, or the only one.
std::string case_in(Files& disk, const fs::path& folder) {
  if (is_case(disk, folder / "case.json")) return (folder / "case.json").string();
  std::vector<std::string> found;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder))
    if (is_case(disk, entry.path())) found.push_back(entry.path().string());
  if (found.size() == 1) return found.front();
  throw InputError(Finding{
      {folder.string(), 0, ""},
      found.empty() ? "holds no case (callfit-case/1)" : "holds several cases",
      found.empty() ? "`callfit answer ... --save case.json` makes one" : "name one of them"});
}

// A folder among the words becomes the case in it.
po::variables_map with_case_found(Files& disk, po::variables_map values) {
  Words files = texts_of(values, "who-file");
  if (files.empty()) files = {"."};
  if (files.size() == 1 && fs::is_directory(files.front()))
    files.front() = case_in(disk, files.front());
  values.erase("who-file");
  values.emplace("who-file", po::variable_value(boost::any(files), false));
  return values;
}

std::string folder_of(const std::string& file) {
  const std::string folder = fs::path(file).parent_path().string();
  return folder.empty() ? "." : folder;
}

desk::Opened opened_from(Files& disk, const po::variables_map& values) {
  OpenedCase opened = open_case(disk, values);
  const std::string file = opened.source;
  return {std::move(opened.about), file.empty() ? opened.document : disk.read(file), file,
          file.empty() ? "." : folder_of(file), load_glossary(disk)};
}

std::string new_token() {
  std::array<unsigned char, 32> bytes{};
  if (getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    throw std::runtime_error("the system gives no random bytes");
  std::string token;
  constexpr std::string_view digits = "0123456789abcdef";
  for (const unsigned char byte : bytes) {
    token += digits[byte >> 4U];
    token += digits[byte & 15U];
  }
  return token;
}

// Whoever shows pages here; where nothing does, the printed address is enough.
void open_page(const std::string& address) {
  std::string program = "xdg-open", word = address;
  std::array<char*, 3> words{program.data(), word.data(), nullptr};
  pid_t child = 0;
  posix_spawnp(&child, program.c_str(), nullptr, nullptr, words.data(), environ);
}

}  // namespace

int desk_command(const Words& words) {
  Files disk;
  const auto given = desk_options().parse(words, disk);
  if (!given) return exit_ok;
  const po::variables_map values = with_case_found(disk, *given);
  desk::Desk desk(opened_from(disk, values), threads_of(values));
  desk::Server server(values["port"].as<std::uint16_t>());
  const std::string token = new_token();
  const desk::Gate gate(token, server.port());
  const std::string address = "http://127.0.0.1:" + std::to_string(server.port()) + "/#" + token;
  std::cout << "The desk is at " << address << "\nOn this machine alone; Ctrl-C ends it.\n"
            << std::flush;
  if (!values.contains("no-open")) open_page(address);
  server.run([&](const desk::Call& call) {
    const auto refusal = gate.refusal(call, desk::Desk::is_page_file(call.target));
    return refusal ? *refusal : desk.answer(call);
  });
  return exit_ok;
}

}  // namespace callfit::cli

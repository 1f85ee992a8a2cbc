#include "cli/options.hpp"

#include "cli/inputs.hpp"

#include <callfit/ask/case.hpp>
#include <callfit/base/random.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/table.hpp>

#include <algorithm>
#include <cctype>
#include <iostream>
#include <sstream>

namespace callfit::cli {
namespace {

constexpr unsigned help_width = 96;

po::typed_value<std::uint64_t>* number(std::uint64_t usual) {
  return po::value<std::uint64_t>()->default_value(usual)->value_name("N");
}

// Boost reads "-1" as a huge unsigned number; a minus sign is never right here.
void refuse_negative(const Words& words, const char* name) {
  const std::string flag = std::string("--") + name;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool apart = words[i] == flag && i + 1 < words.size() && words[i + 1].size() > 1 &&
                       words[i + 1][0] == '-' &&
                       std::isdigit(static_cast<unsigned char>(words[i + 1][1])) != 0;
    if (apart || words[i].starts_with(flag + "=-"))
      throw po::error(flag + " takes a whole number, 0 or more");
  }
}

// --output takes one file, or may be repeated.
Words outputs_of(const po::variables_map& values) {
  if (!values.contains("output")) return {};
  const boost::any& output = values["output"].value();
  if (const auto* one = boost::any_cast<std::string>(&output)) return {*one};
  return boost::any_cast<Words>(output);
}

}  // namespace

Options::Options(HelpText help)
    : text_(std::move(help)),
      own_("Options", help_width, 48),
      common_("Options of several commands", help_width, 48) {
  own_.add_options()("help,h", "this; --help all: every option; --help WORD: what it means");
}

Options& Options::with_json() {
  own_.add_options()("json", "print the result as JSON (docs/results.md)");
  return *this;
}

Options& Options::with_draws(std::size_t draws) {
  common_.add_options()("seed", number(default_seed), "random seed; same seed, same result")(
      "draws", number(draws), "draws from what the tape leaves open")(
      "threads", number(0), "threads to use; 0: one per core; never changes a result");
  return *this;
}

po::options_description Options::every() const {
  po::options_description all;
  all.add(own_).add(common_);
  return all;
}

std::string Options::help(bool all) const {
  std::ostringstream out;
  out << "callfit " << text_.usage << "\n\n" << wrapped(text_.about, help_width) << '\n' << own_;
  if (all && !common_.options().empty()) out << '\n' << common_;
  out << "\nExample\n" << text_.example << "\n\n" << wrapped(cautions_text(), help_width);
  return out.str();
}

std::optional<po::variables_map> Options::parse(const Words& words, Files& disk) const {
  for (const char* name : {"seed", "draws", "threads", "sample", "levers", "before", "rows"})
    refuse_negative(words, name);
  const auto asked = std::find_if(words.begin(), words.end(), [](const std::string& word) {
    return word == "--help" || word == "-h";
  });
  if (asked != words.end()) {
    const bool topic = asked + 1 != words.end() && !asked[1].starts_with('-');
    const bool all = topic && asked[1] == "all";
    std::cout << (topic && !all ? meaning_of(disk, asked[1]) : help(all));
    return std::nullopt;
  }
  po::variables_map values;
  const int style = po::command_line_style::default_style & ~po::command_line_style::allow_guessing;
  const po::options_description all = every();
  po::store(po::command_line_parser(words).options(all).positional(places_).style(style).run(),
            values);
  po::notify(values);
  for (const std::string& output : outputs_of(values)) disk.will_write(output);
  if (values.contains("draws")) {  // wrong numbers are told before any file is read
    draws_of(values);
    threads_of(values);
  }
  return values;
}

bool wants_json(const po::variables_map& values) { return values.contains("json"); }

std::uint64_t seed_of(const po::variables_map& values) {
  return values["seed"].as<std::uint64_t>();
}

std::size_t draws_of(const po::variables_map& values) {
  const std::uint64_t draws = values["draws"].as<std::uint64_t>();
  if (draws < fewest_draws || draws > most_draws)
    throw po::error("--draws takes a whole number from " + std::to_string(fewest_draws) + " to " +
                    std::to_string(most_draws));
  return draws;
}

unsigned threads_of(const po::variables_map& values) {
  const std::uint64_t threads = values["threads"].as<std::uint64_t>();
  constexpr std::uint64_t most = 1024;
  if (threads > most) throw po::error("--threads takes a whole number from 0 to 1024");
  return static_cast<unsigned>(threads);
}

std::string text_of(const po::variables_map& values, const char* name) {
  return values.contains(name) ? values[name].as<std::string>() : std::string();
}

Words texts_of(const po::variables_map& values, const char* name) {
  return values.contains(name) ? values[name].as<Words>() : Words();
}

std::string required_text(const po::variables_map& values, const char* name) {
  if (!values.contains(name)) throw po::required_option(std::string("--") + name);
  return values[name].as<std::string>();
}

}  // namespace callfit::cli

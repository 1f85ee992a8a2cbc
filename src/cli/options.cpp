#include "cli/options.hpp"

#include "cli/inputs.hpp"

#include <callfit/ask/case.hpp>
#include <callfit/base/random.hpp>
#include <callfit/report/cautions.hpp>
#include <callfit/report/table.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <iostream>
#include <sstream>

namespace callfit::cli {
namespace {

constexpr unsigned help_width = 96;

constexpr double most_seed = 9007199254740991;  // what a case can hold: 2^53 - 1
constexpr double most_threads = 1024;

std::string in_words(const Range& range) {
  return fmt::format("give a {} from {:.16g} to {:.16g}", range.whole ? "whole number" : "number",
                     range.low, range.high);
}

// All of the text.
std::optional<double> number_in(const std::string& text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

// --output takes one file, or may be repeated.
Words outputs_of(const po::variables_map& values) {
  if (!values.contains("output")) return {};
  const boost::any& output = values["output"].value();
  if (const auto* one = boost::any_cast<std::string>(&output)) return {*one};
  return boost::any_cast<Words>(output);
}

}  // namespace

void Number::xparse(boost::any& value, const std::vector<std::string>& tokens) const {
  if (tokens.empty()) {
    po::typed_value<double>::xparse(value, tokens);
    return;
  }
  po::validators::check_first_occurrence(value);
  const std::string& text = po::validators::get_single_string(tokens);
  const auto number = number_in(text);
  if (!number || !(*number >= range_.low && *number <= range_.high) ||
      (range_.whole && *number != std::floor(*number)))
    throw po::error_with_option_name("%canonical_option% " + text + ": " + in_words(range_));
  value = boost::any(*number);
}

po::typed_value<double>* whole(double low, double high) {
  auto* number = new Number({low, high, true});  // NOLINT(cppcoreguidelines-owning-memory)
  number->value_name("N");
  return number;
}

po::typed_value<double>* real(double low, double high) {
  return new Number({low, high, false});  // NOLINT(cppcoreguidelines-owning-memory)
}

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

Options& Options::with_force() {
  common_.add_options()("force", "replace files that are there, whoever wrote them");
  return *this;
}

Options& Options::with_draws(std::size_t draws) {
  constexpr auto fewest = static_cast<double>(fewest_draws);
  constexpr auto most = static_cast<double>(most_draws);
  common_.add_options()(
      "seed",
      whole(0, most_seed)
          ->default_value(static_cast<double>(default_seed), std::to_string(default_seed)),
      "random seed; same seed, same result")(
      "draws",
      whole(fewest, most)->default_value(static_cast<double>(draws), std::to_string(draws)),
      "draws from what the tape leaves open")(
      "threads", whole(0, most_threads)->default_value(0, "0"),
      "threads to use; 0: one per core; never changes a result");
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
  if (values.contains("force")) disk.replace_all();
  for (const std::string& output : outputs_of(values)) disk.will_write(output);
  return values;
}

bool wants_json(const po::variables_map& values) { return values.contains("json"); }

double number_of(const po::variables_map& values, const char* name) {
  return values[name].as<double>();
}

std::size_t whole_of(const po::variables_map& values, const char* name) {
  return static_cast<std::size_t>(number_of(values, name));
}

std::uint64_t seed_of(const po::variables_map& values) { return whole_of(values, "seed"); }

std::size_t draws_of(const po::variables_map& values) { return whole_of(values, "draws"); }

unsigned threads_of(const po::variables_map& values) {
  return static_cast<unsigned>(whole_of(values, "threads"));
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

// Command-line words into values, and help texts, through Boost.Program_options.
#pragma once

#include "cli/commands.hpp"

#include <callfit/files/files.hpp>

#include <boost/program_options.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace callfit::cli {

namespace po = boost::program_options;

/// What `callfit COMMAND --help` says besides the options.
struct HelpText {
  std::string usage;    ///< words after "callfit"
  std::string about;    ///< a few sentences
  std::string example;  ///< complete command lines
};

/// What a number may be.
struct Range {
  double low = 0, high = 0;
  bool whole = false;
};

/// An option's number. Others, infinities and NaN are refused with a line that shows the range.
class Number : public po::typed_value<double> {
 public:
  explicit Number(const Range& range) : po::typed_value<double>(nullptr), range_(range) {}
  void xparse(boost::any& value, const std::vector<std::string>& tokens) const override;

 private:
  Range range_;
};
/// Whole numbers from `low` to `high`, shown as N.
po::typed_value<double>* whole(double low, double high);
/// Any numbers from `low` to `high`.
po::typed_value<double>* real(double low, double high);

/// The options of one subcommand.
class Options {
 public:
  explicit Options(HelpText help);

  /// Declare options as Boost.Program_options does.
  po::options_description_easy_init add() { return own_.add_options(); }
  /// Those that many commands share: shown by `--help all`.
  po::options_description_easy_init add_common() { return common_.add_options(); }

  /// Words without a dash go to the option `name`, declared with add(); `most` of them, -1: all.
  void positional(const char* name, int most = -1) { places_.add(name, most); }

  /// --json
  Options& with_json();
  /// --force, for commands that write files
  Options& with_force();
  /// --seed, --draws, --threads
  Options& with_draws(std::size_t draws);

  /// The values, or nothing when help was asked for and printed: of the command, with `all` of its
  /// common options too, with another word of that word. What --output names is announced
  /// to `disk`. Throws po::error.
  std::optional<po::variables_map> parse(const Words& words, Files& disk) const;

 private:
  std::string help(bool all) const;
  po::options_description every() const;

  HelpText text_;
  po::options_description own_, common_;
  po::positional_options_description places_;
};

double number_of(const po::variables_map& values, const char* name);
std::size_t whole_of(const po::variables_map& values, const char* name);

bool wants_json(const po::variables_map& values);
std::uint64_t seed_of(const po::variables_map& values);
std::size_t draws_of(const po::variables_map& values);
unsigned threads_of(const po::variables_map& values);

/// The text of an option, empty when it was not given.
std::string text_of(const po::variables_map& values, const char* name);
/// The texts of a repeatable option.
Words texts_of(const po::variables_map& values, const char* name);
/// Like text_of, but throws po::required_option when it was not given.
std::string required_text(const po::variables_map& values, const char* name);

}  // namespace callfit::cli

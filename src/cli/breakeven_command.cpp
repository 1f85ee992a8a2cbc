#include "cli/console.hpp"
#include "cli/inputs.hpp"
#include "cli/questions.hpp"
#include "report/question_json.hpp"

#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

Options breakeven_options() {
  Options options(
      {"breakeven PROFILE PATH --scheme NAME|FILE (--against PROFILE | --against-scheme NAME|FILE)",
       "The value of one rate (or any other path that `whatif --list` shows) at which PROFILE is "
       "worth as much as another quarterback, or as much in one scheme as in another, with the "
       "chance that his own value lies beyond it.",
       "  callfit breakeven new.profile.json rate.deep_outside.completion \\\n"
       "      --scheme vertical-play-action --against last.profile.json"});
  add_question_options(options, 1000);
  options.add()("path", po::value<std::string>()->value_name("PATH"), "what to turn")(
      "against", po::value<std::string>()->value_name("PROFILE"), "the other quarterback")(
      "against-scheme", po::value<std::string>()->value_name("NAME|FILE"), "the other scheme");
  options.positional("path", 1);
  return options;
}

// The same quarterback under another scheme, on the first one's ground.
Question in_scheme(Files& disk, const Question& question, const std::string& name) {
  Question other = question;
  other.scheme = load_scheme(disk, name);
  return other;
}

}  // namespace

int breakeven_command(const Words& words) {
  Files disk;
  const auto values = breakeven_options().parse(words, disk);
  if (!values) return exit_ok;
  const std::string path = required_text(*values, "path");
  const std::string against = text_of(*values, "against");
  const std::string scheme = text_of(*values, "against-scheme");
  if (against.empty() == scheme.empty())
    throw po::error("breakeven takes either --against or --against-scheme");
  const Question first = load_question(disk, *values);
  const Question second =
      against.empty() ? in_scheme(disk, first, scheme) : load_question(disk, against, first.ground);
  const BreakEven result = break_even(first, second, path, against.empty(),
                                      draw_options_of(*values), progress_line("draws"));
  if (wants_json(*values)) {
    auto request = request_of(*values, first);
    request["against"] = against.empty() ? scheme : against;
    print_json("breakeven", request, break_even_json(result));
  } else if (against.empty()) {
    std::cout << break_even_text(result, first.scheme.name, second.scheme.name);
  } else {
    std::cout << break_even_text(result, first.profile.name, second.profile.name);
  }
  return exit_ok;
}

}  // namespace callfit::cli

#include "cli/console.hpp"
#include "cli/questions.hpp"
#include "report/question_json.hpp"

#include <callfit/format/scheme.hpp>

#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

Options tailor_options() {
  Options options(
      {"tailor PROFILE --scheme NAME|FILE [--move X] [--run-pass X] [--fade X] [-o SCHEME.json]",
       "Bends the scheme to the quarterback: the call shares that gain most net points when each "
       "may move by at most --move and a situation's passes by at most --run-pass. Says what to "
       "call more, what less and what it is worth, beside the bound that choosing anew at every "
       "snap would reach. With --fade the defence learns, as in `callfit package`.",
       "  callfit tailor new.profile.json --scheme balanced --move 0.05 -o bent.json"});
  add_question_options(options, 500);
  const auto share = [](double usual) {
    return po::value<double>()
        ->default_value(usual, std::to_string(usual).substr(0, 4))
        ->value_name("X");
  };
  options.add()("move", share(0.05), "how far each share may move")(
      "run-pass", share(0.05), "how far a situation's share of passes may move")(
      "fade", share(0), "how fast surprise wears off")(
      "output,o", po::value<std::string>()->value_name("FILE"), "write the bent scheme (JSON)");
  return options;
}

}  // namespace

int tailor_command(const Words& words) {
  Files disk;
  const auto values = tailor_options().parse(words, disk);
  if (!values) return exit_ok;
  const TailorLimits limits{(*values)["move"].as<double>(), (*values)["run-pass"].as<double>(),
                            (*values)["fade"].as<double>()};
  const Question question = load_question(disk, *values);
  Tailored result = tailor(question, limits, draw_options_of(*values), progress_line("tailoring"));
  const std::string file = text_of(*values, "output");
  if (!file.empty()) {
    result.called.id += "-tailored";
    result.called.name += ", tailored to " + question.profile.name;
    disk.write(file, scheme_to_json(result.called));
  }
  if (wants_json(*values))
    print_json("tailor", request_of(*values, question), tailored_json(result, limits));
  else
    std::cout << tailor_text(result, limits, question.profile.name, question.scheme.name,
                             question.setting.drives_per_game);
  return exit_ok;
}

}  // namespace callfit::cli

#include "cli/console.hpp"
#include "cli/dressing.hpp"
#include "cli/questions.hpp"
#include "report/question_json.hpp"

#include <callfit/graphic/from_questions.hpp>
#include <callfit/graphic/from_results.hpp>

#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

constexpr std::size_t drawn_at_most = 12;

Options levers_options() {
  Options options(
      {"levers PROFILE --scheme NAME|FILE [--most N]",
       "Which rate, call share or mean gain matters most: exact derivatives of net points and fit, "
       "shown per realistic step (one spread between quarterbacks, or 10 percentage points of "
       "calls), sorted.",
       "  callfit levers new.profile.json --scheme balanced -o levers.svg"});
  add_question_options(options, 200);
  add_dress_options(options);
  options.add()("most", po::value<std::uint64_t>()->default_value(15)->value_name("N"),
                "rows to print")("output,o", po::value<std::string>()->value_name("FILE"),
                                 "draw the bars (.svg, .png or .pdf)");
  return options;
}

}  // namespace

int levers_command(const Words& words) {
  Files disk;
  const auto values = levers_options().parse(words, disk);
  if (!values) return exit_ok;
  const std::string file = text_of(*values, "output");
  if (!file.empty()) require_picture_ending(file);
  Dress dress = dress_from(disk, *values);
  const Question question = load_question(disk, *values);
  const auto levers = levers_of(question, draw_options_of(*values), progress_line("levers"));
  if (!file.empty()) {
    dress.tape = {tape_note(question.profile)};
    const LeverPicture picture =
        lever_picture(question.profile.name, question.scheme.name, levers, drawn_at_most);
    write_pictures(disk, figure(lever_panel(picture, dress.wording), dress), dress.frame, {file});
  }
  if (wants_json(*values))
    print_json("levers", request_of(*values, question), levers_json(levers));
  else
    std::cout << levers_text(levers, question.profile.name, question.scheme.name,
                             (*values)["most"].as<std::uint64_t>());
  return exit_ok;
}

}  // namespace callfit::cli

#include "cli/console.hpp"
#include "cli/questions.hpp"
#include "report/question_json.hpp"

#include <callfit/base/nearest.hpp>
#include <callfit/format/scenario.hpp>

#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

Options package_options() {
  Options options(
      {"package PROFILE --scheme NAME|FILE --add FAMILY=SHARE [--situation ID] [--inside YARDS] "
       "[--against SHELL] [--fade X]",
       "Adds calls of one family in one situation and says what it is worth: points, red-zone "
       "touchdowns, and the extra contact of planned quarterback runs. SHARE is the part of the "
       "calls there that becomes the package. With --fade X the defence learns: of a share q the "
       "part X times q is expected and worth no more than the rest of the mix.",
       "  callfit package new.profile.json --scheme balanced --add qb_draw=15% --inside 10 \\\n"
       "      --against two_high --fade 1.5"});
  add_question_options(options, 1000);
  options.add()("add", po::value<std::string>()->value_name("FAMILY=SHARE"),
                "the family and its share, such as qb_draw=15%")(
      "situation", po::value<std::string>()->value_name("ID"),
      "only in this situation of the scheme")("inside", po::value<int>()->value_name("YARDS"),
                                              "only so near the goal")(
      "against", po::value<std::string>()->value_name("SHELL"),
      "only against one_high, two_high or none_high")(
      "fade", po::value<double>()->default_value(0)->value_name("X"),
      "how fast the surprise wears off; 0: never");
  return options;
}

Package package_of(const po::variables_map& values) {
  const Change added = parse_change(required_text(values, "add"));
  if (added.way != Change::Way::set || added.amount < 0 || added.amount > 1)
    throw po::error("--add takes FAMILY=SHARE with a share from 0 to 1, such as qb_draw=15%");
  Package package{text_of(values, "situation"), {}, added.path, {}, added.amount,
                  values["fade"].as<double>()};
  if (!(package.fade >= 0)) throw po::error("--fade takes a number, 0 or more");
  if (values.contains("inside")) package.inside = values["inside"].as<int>();
  if (package.inside && (*package.inside < 1 || *package.inside > 99))
    throw po::error("--inside takes 1 to 99 yards");
  const std::string shell = text_of(values, "against");
  if (shell.empty()) return package;
  package.against = from_word<Shell>(shell);
  const Words shells = all_words<Shell>();
  if (!package.against) throw po::error("--against " + shell + ": " + suggest(shell, shells));
  return package;
}

}  // namespace

int package_command(const Words& words) {
  Files disk;
  const auto values = package_options().parse(words, disk);
  if (!values) return exit_ok;
  const Package package = package_of(*values);
  const Question question = load_question(disk, *values);
  const PackageResult result =
      add_package(question, package, draw_options_of(*values), progress_line("draws"));
  if (wants_json(*values))
    print_json("package", request_of(*values, question), package_json(result, package));
  else
    std::cout << package_text(result, package, question.profile.name, question.scheme);
  return exit_ok;
}

}  // namespace callfit::cli

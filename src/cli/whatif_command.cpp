#include "cli/console.hpp"
#include "cli/dressing.hpp"
#include "cli/questions.hpp"
#include "report/question_json.hpp"

#include <callfit/format/scenario.hpp>
#include <callfit/graphic/from_questions.hpp>
#include <callfit/graphic/from_results.hpp>

#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

Options whatif_options() {
  Options options(
      {"whatif PROFILE --scheme NAME|FILE [--set PATH=VALUE ...] [--scenario FILE] "
       "[--sweep PATH=FROM:TO:N [--sweep ...]] [--list]",
       "What if a rate, a call share, a demand, a level's weight, the defence's shells or the "
       "fourth-down policy were different? --set takes 0.4, 40% or x1.2 and may be repeated; the "
       "rest of a mix rescales. --scenario reads changes from a file. --sweep turns one path and "
       "gives a curve (a second --sweep: a grid); --set and --scenario apply first. --list shows "
       "every path with its value.",
       "  callfit whatif new.profile.json --scheme vertical-play-action \\\n"
       "      --set rate.deep_outside.completion=50% --set call.third_long.deep_outside=x1.5\n"
       "  callfit whatif new.profile.json --scheme balanced \\\n"
       "      --sweep rate.deep_outside.completion=25%:50%:6 -o deep.svg"});
  add_question_options(options, 1000);
  add_dress_options(options);
  options.add()("set", po::value<Words>()->value_name("PATH=VALUE"), "a change; may be repeated")(
      "scenario", po::value<std::string>()->value_name("FILE"), "changes from a JSON file")(
      "sweep", po::value<Words>()->value_name("PATH=FROM:TO:N"), "turn one path, or two")(
      "list", "show every path with its value")("output,o",
                                                po::value<std::string>()->value_name("FILE"),
                                                "draw the sweep (.svg, .png or .pdf)");
  return options;
}

std::vector<Change> changes_of(Files& disk, const po::variables_map& values) {
  std::vector<Change> changes;
  const std::string scenario = text_of(values, "scenario");
  if (!scenario.empty()) changes = disk.scenario(scenario).changes;
  for (const std::string& text : texts_of(values, "set")) changes.push_back(parse_change(text));
  return changes;
}

std::vector<SweepRange> sweeps_of(const po::variables_map& values) {
  std::vector<SweepRange> sweeps;
  for (const std::string& text : texts_of(values, "sweep")) sweeps.push_back(parse_sweep(text));
  if (sweeps.size() > 2) throw po::error("--sweep may be given once or twice");
  const std::string file = text_of(values, "output");
  if (!file.empty() && sweeps.empty()) throw po::error("--output needs a --sweep to draw");
  if (!file.empty()) require_picture_ending(file);
  return sweeps;
}

void answer(const po::variables_map& values, const Question& question,
            const nlohmann::ordered_json& json, const std::string& text) {
  if (wants_json(values))
    print_json("whatif", request_of(values, question), json);
  else
    std::cout << text;
}

void draw(Files& disk, const po::variables_map& values, const Question& question,
          const Panel& panel, Dress dress) {
  dress.tape = {tape_note(question.profile)};
  write_pictures(disk, figure(panel, dress), dress.frame, {text_of(values, "output")});
}

void one_sweep(Files& disk, const po::variables_map& values, const Question& question,
               const SweepRange& range) {
  const Dress dress = dress_from(disk, values);
  const Sweep result = sweep(question, range, draw_options_of(values), progress_line("sweep"));
  const std::string player = question.profile.name;
  if (values.contains("output"))
    draw(disk, values, question, sweep_panel(sweep_picture(player, result), dress.wording), dress);
  answer(values, question, sweep_json(result), sweep_text(result, player, question.scheme.name));
}

void two_sweeps(Files& disk, const po::variables_map& values, const Question& question,
                const std::vector<SweepRange>& ranges) {
  const Dress dress = dress_from(disk, values);
  const SweepGrid result =
      sweep_grid(question, ranges[0], ranges[1], draw_options_of(values), progress_line("sweep"));
  if (values.contains("output"))
    draw(disk, values, question, comparison_panel(grid_picture(result), dress.wording), dress);
  answer(values, question, grid_json(result),
         grid_text(result, question.profile.name, question.scheme.name));
}

}  // namespace

int whatif_command(const Words& words) {
  Files disk;
  const auto values = whatif_options().parse(words, disk);
  if (!values) return exit_ok;
  const auto changes = changes_of(disk, *values);
  const auto sweeps = sweeps_of(*values);
  const Question question = load_question(disk, *values);
  if (values->contains("list")) {
    answer(*values, question, knobs_json(question), knobs_text(question));
    return exit_ok;
  }
  if (sweeps.empty()) {
    const WhatIf result =
        what_if(question, changes, draw_options_of(*values), progress_line("draws"));
    answer(*values, question, whatif_json(result),
           whatif_text(result, question.profile.name, question.scheme.name));
  } else if (sweeps.size() == 1) {
    one_sweep(disk, *values, changed(question, changes), sweeps.front());
  } else {
    two_sweeps(disk, *values, changed(question, changes), sweeps);
  }
  return exit_ok;
}

}  // namespace callfit::cli

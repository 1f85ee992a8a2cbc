#include "cli/console.hpp"
#include "cli/inputs.hpp"

#include <callfit/format/scheme.hpp>
#include <callfit/report/reports.hpp>
#include <callfit/scheme/call_chart.hpp>

#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

Options scheme_options() {
  Options options(
      {"scheme CALLS.csv... --like NAME|FILE [--name NAME] [-o FILE]",
       "Turns a chart of a coordinator's calls into a scheme: call shares by situation from "
       "counts, "
       "pulled toward his overall mix where a situation is thin. Families, situations and demands "
       "come from the scheme named by --like. Prints the mix by situation; -o saves the scheme.",
       "  callfit scheme coordinator-calls.csv --like quick-middle-option --name \"The new "
       "coordinator\" -o coordinator.json"});
  options.with_json().add()("calls", po::value<Words>()->value_name("CALLS"),
                            "charts of calls (CSV)")(
      "like", po::value<std::string>()->value_name("NAME|FILE"),
      "scheme that gives families, situations and demands")(
      "name", po::value<std::string>()->value_name("NAME"), "what to call the scheme")(
      "smoothing", po::value<double>()->default_value(usual_smoothing)->value_name("SNAPS"),
      "how many snaps the overall mix counts for in each situation")(
      "setting", po::value<std::string>()->default_value("college")->value_name("NAME|FILE"),
      "level of play: a shipped name or a JSON file")(
      "output,o", po::value<std::string>()->value_name("FILE"), "save the scheme here");
  options.positional("calls");
  return options;
}

}  // namespace

int scheme_command(const Words& words) {
  Files disk;
  const auto values = scheme_options().parse(words, disk);
  if (!values) return exit_ok;
  const Words files = texts_of(*values, "calls");
  if (files.empty()) throw po::required_option("CALLS");
  const double smoothing = (*values)["smoothing"].as<double>();
  if (!(smoothing >= 0)) throw po::error("--smoothing takes a number of snaps, 0 or more");

  const Scheme base = load_scheme(disk, required_text(*values, "like"));
  const Setting setting = load_setting(disk, text_of(*values, "setting"));
  Scheme scheme =
      scheme_from_calls(base, load_charts(disk, files, setting, aliases_of(base)), smoothing);
  const std::string name = text_of(*values, "name");
  if (!name.empty()) scheme.name = name;

  const std::string document = scheme_to_json(scheme);
  const std::string output = text_of(*values, "output");
  if (!output.empty()) disk.write(output, document);
  if (wants_json(*values))
    print_json("scheme", {{"calls", files}, {"like", base.id}, {"smoothing", smoothing}},
               nlohmann::ordered_json::parse(document));
  else
    std::cout << scheme_text(scheme);
  return exit_ok;
}

}  // namespace callfit::cli

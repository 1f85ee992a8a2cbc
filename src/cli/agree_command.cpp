#include "cli/console.hpp"
#include "cli/inputs.hpp"
#include "report/agreement_json.hpp"

#include <callfit/chart/agreement.hpp>
#include <callfit/report/agreement_text.hpp>

#include <nlohmann/json.hpp>

#include <iostream>
#include <limits>

namespace callfit::cli {
namespace {

Options agree_options() {
  Options options(
      {"agree A.csv B.csv [--rows N]",
       "Measures how far two people charted the same snaps alike: per column the share of equal "
       "entries and Cohen's kappa with its 90% interval, the rows that disagree, and what the "
       "difference does to the rates. Rows are paired by snap_id where every row has one, else by "
       "game and order.",
       "  callfit agree mine.csv yours.csv --rows 50"});
  options.with_json().add()("chart", po::value<Words>()->value_name("CHART"), "two charts (CSV)")(
      "rows", po::value<std::size_t>()->default_value(20)->value_name("N"),
      "how many of the rows that disagree to list, 0 for all")(
      "setting", po::value<std::string>()->default_value("college")->value_name("NAME|FILE"),
      "level of play: what counts as a success and as explosive");
  options.positional("chart");
  return options;
}

}  // namespace

int agree_command(const Words& words) {
  Files disk;
  const auto values = agree_options().parse(words, disk);
  if (!values) return exit_ok;
  const Words files = texts_of(*values, "chart");
  if (files.size() != 2) throw po::error("agree takes two charts: callfit agree A.csv B.csv");

  const Setting setting = load_setting(disk, text_of(*values, "setting"));
  const std::vector<Chart> charts = load_charts(disk, files, setting, {});
  const Agreement result = agreement(charts[0], charts[1], setting.success);
  std::size_t rows = (*values)["rows"].as<std::size_t>();
  if (rows == 0) rows = std::numeric_limits<std::size_t>::max();
  if (wants_json(*values))
    print_json("agree", {{"charts", files}, {"setting", setting.id}},
               agreement_json(result, charts[0], charts[1]));
  else
    std::cout << agreement_text(result, charts[0], charts[1], rows);
  return exit_ok;
}

}  // namespace callfit::cli

#include "cli/console.hpp"
#include "cli/inputs.hpp"
#include "report/tape_json.hpp"

#include <callfit/report/tape_reports.hpp>

#include <nlohmann/json.hpp>

#include <filesystem>
#include <iostream>

namespace callfit::cli {
namespace {

Options setting_options() {
  Options options(
      {"setting --from CHART... [--setting NAME|FILE] [--id NAME] [-o FILE]",
       "Estimates the population of a setting from charts of several quarterbacks, one chart each: "
       "mean and spread of every rate by marginal likelihood, with 90% profile intervals that tell "
       "how well they are determined. Only snaps of the setting's own level count. -o saves a "
       "setting that is based on the old one and holds the new rates.",
       "  callfit setting --from a.csv b.csv c.csv --setting college -o league.json"});
  options.with_json().add()("from", po::value<Words>()->multitoken()->value_name("CHART"),
                            "charts (CSV), one quarterback each")(
      "setting", po::value<std::string>()->default_value("college")->value_name("NAME|FILE"),
      "the setting to start from")("scheme", po::value<std::string>()->value_name("NAME|FILE"),
                                   "scheme whose own families the charts use, if any")(
      "id", po::value<std::string>()->default_value("fitted")->value_name("NAME"),
      "id of the new setting")("output,o", po::value<std::string>()->value_name("FILE"),
                               "save the new setting here");
  return options;
}

// The old setting as the new one's file must name it: relative to where the new one lies.
std::string based_on(const std::string& name, const std::string& output) {
  namespace fs = std::filesystem;
  const fs::path old = fs::absolute(find_data("settings", name));
  const fs::path place = output.empty() ? fs::current_path() : fs::absolute(output).parent_path();
  return old.lexically_relative(place.lexically_normal()).generic_string();
}

}  // namespace

int setting_command(const Words& words) {
  Files disk;
  const auto values = setting_options().parse(words, disk);
  if (!values) return exit_ok;
  const Words files = texts_of(*values, "from");
  if (files.empty()) throw po::required_option("--from");

  const std::string name = text_of(*values, "setting");
  const Setting setting = load_setting(disk, name);
  const std::string scheme = text_of(*values, "scheme");
  const auto aliases =
      scheme.empty() ? std::vector<FamilyAlias>() : aliases_of(load_scheme(disk, scheme));
  std::vector<std::vector<Chart>> quarterbacks;
  for (Chart& chart : load_charts(disk, files, setting, aliases)) {
    quarterbacks.emplace_back();
    quarterbacks.back().push_back(std::move(chart));
  }
  const PopulationFit fit = fit_population(quarterbacks, setting, aliases);

  const std::string output = text_of(*values, "output");
  if (!output.empty())
    disk.write(
        output,
        fitted_setting(fit, setting, text_of(*values, "id"), based_on(name, output)).dump(2) +
            "\n");
  if (wants_json(*values))
    print_json("setting", {{"from", files}, {"setting", setting.id}},
               population_json(fit, setting));
  else
    std::cout << population_text(fit, setting);
  return exit_ok;
}

}  // namespace callfit::cli

#include "cli/console.hpp"
#include "cli/dressing.hpp"
#include "cli/inputs.hpp"
#include "report/quarterbacks_json.hpp"
#include "report/season_points_json.hpp"
#include "report/validation_json.hpp"

#include <callfit/graphic/pictures.hpp>
#include <callfit/report/quarterbacks_report.hpp>
#include <callfit/report/validation_report.hpp>
#include <callfit/validate/validate.hpp>

#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

Options validate_options() {
  Options options(
      {"validate SETTING [--observed NAME|FILE | --drives FILE | --quarterbacks FILE "
       "[--seasons FILE]] [-o FILE...]",
       "Holds a setting against real drives: its average offence in its average scheme, solved "
       "exactly, beside drive results, series, third downs, the red zone and expected points that "
       "were counted, and beside published ones. None of these made the setting. --drives counts "
       "the "
       "drives of a table: those begun in the first and third quarter, where the model then starts "
       "too. -o draws the drive results. --quarterbacks holds the population instead: what the "
       "first four and eight games of each man say of the others, and a season of the next. "
       "--seasons adds points: what drives make of a season's rates beside what they made, and "
       "whether odds between two men came true.",
       "  callfit validate pro -o validation.svg\n"
       "  callfit validate college --drives season.csv.gz --json"});
  options.with_json().with_force();
  add_dress_options(options);
  options.add()("setting", po::value<std::string>()->value_name("SETTING"),
                "a shipped setting or a file")(
      "observed", po::value<std::string>()->value_name("NAME|FILE"),
      "what real drives did: shipped in settings/observed, or a file (default: the setting's)")(
      "drives", po::value<std::string>()->value_name("FILE"),
      "real drives instead, a row each: CSV, gzip or plain")(
      "quarterbacks", po::value<std::string>()->value_name("FILE"),
      "real quarterbacks instead, a row a game: CSV, gzip or plain")(
      "seasons", po::value<std::string>()->value_name("FILE"),
      "with --quarterbacks: the drives they led, a row a season: CSV, gzip or plain")(
      "output,o", po::value<Words>()->value_name("FILE"),
      "also draw: .svg, .png or .pdf; may be repeated");
  options.positional("setting", 1);
  return options;
}

Observed load_observed(Files& disk, const po::variables_map& values, const Setting& setting) {
  const std::string table = text_of(values, "drives");
  const std::string name = text_of(values, "observed");
  if (!table.empty() && !name.empty()) throw po::error("give --observed or --drives, not both");
  if (!table.empty()) return count_drives(disk.drives(table), table);
  if (!name.empty()) return disk.observed(find_data("settings/observed", name));
  return disk.observed(find_observed_of(setting));
}

Population require_population(const Setting& setting, const std::string& name) {
  if (setting.population) return *setting.population;
  throw InputError(Finding{{name, 0, "/population"},
                           "is missing: nothing says how quarterbacks differ together",
                           "add one, see docs/formats.md"});
}

int validate_against_quarterbacks(Files& disk, const po::variables_map& values,
                                  const Setting& setting, const std::string& name) {
  const std::string table = text_of(values, "quarterbacks");
  for (const char* other : {"observed", "drives", "output"})
    if (values.count(other) > 0)
      throw po::error("give --quarterbacks without --" + std::string(other));
  const Population population = require_population(setting, name);
  const std::string drives = text_of(values, "seasons");
  const std::vector<QuarterbackGame> games = disk.quarterback_games(table);
  const QuarterbackReport report =
      validate_quarterbacks(setting.label, population, games, table, default_seed);
  std::optional<PointsReport> points;
  if (!drives.empty())
    points = validate_points(setting, load_average_scheme(disk, setting), games,
                             disk.quarterback_seasons(drives), drives);
  if (!wants_json(values)) {
    std::cout << quarterbacks_text(report);
    if (points) std::cout << '\n' << season_points_text(*points);
    return exit_ok;
  }
  Json request{{"setting", setting.id}, {"quarterbacks", table}};
  Json result = quarterbacks_json(report);
  if (points) {
    request["seasons"] = drives;
    result["points"] = season_points_json(*points);
  }
  print_json("validate", request, {{"setting", report.setting}, {"quarterbacks", result}});
  return exit_ok;
}

}  // namespace

int validate_command(const Words& words) {
  Files disk;
  const auto values = validate_options().parse(words, disk);
  if (!values) return exit_ok;
  const std::string name = required_text(*values, "setting");
  const Words outputs = texts_of(*values, "output");
  for (const std::string& output : outputs) require_picture_ending(output);
  const Setting setting = load_setting(disk, name);
  if (!text_of(*values, "seasons").empty() && text_of(*values, "quarterbacks").empty())
    throw po::error("give --seasons with --quarterbacks");
  if (!text_of(*values, "quarterbacks").empty())
    return validate_against_quarterbacks(disk, *values, setting, name);
  const Observed observed = load_observed(disk, *values, setting);
  if (!observed.setting.empty() && observed.setting != setting.id)
    std::cerr << "notice: " << observed.id << " was counted for setting " << observed.setting
              << ", not for " << setting.id << '\n';
  const ValidationReport report =
      validate_setting(setting, load_average_scheme(disk, setting), observed);
  if (!outputs.empty()) {
    Dress dress = dress_from(disk, *values, {});
    if (dress.tape_source.empty()) dress.tape_source = report.source;
    write_pictures(disk, figure(validation_panel(report, dress.wording), dress), dress.frame,
                   outputs);
  }
  if (wants_json(*values))
    print_json("validate", {{"setting", setting.id}, {"observed", observed.id}},
               validation_json(report));
  else
    std::cout << validation_text(report);
  return exit_ok;
}

}  // namespace callfit::cli

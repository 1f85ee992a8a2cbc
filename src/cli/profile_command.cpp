#include "cli/console.hpp"
#include "cli/inputs.hpp"

#include <callfit/format/profile.hpp>
#include <callfit/report/reports.hpp>

#include <nlohmann/json.hpp>

#include <filesystem>
#include <iostream>

namespace callfit::cli {
namespace {

Options profile_options() {
  Options options({"profile CHART... [--name NAME] [--setting NAME|FILE] [-o FILE]",
                   "Turns charted snaps of one quarterback into rates. Every rate is pulled toward "
                   "the population of the setting, the more so the fewer snaps stand behind it; "
                   "snaps of lower levels count for less. Prints what each game contributes and "
                   "each rate with its 90% interval; -o saves the profile as JSON to read or edit.",
                   "  callfit profile new.csv --name \"New starter\" -o new.profile.json"});
  options.with_json().add()("chart", po::value<Words>()->value_name("CHART"), "charts (CSV)")(
      "name", po::value<std::string>()->value_name("NAME"),
      "the quarterback, as reports shall call him; the first chart's file name if not given")(
      "setting", po::value<std::string>()->default_value("college")->value_name("NAME|FILE"),
      "level of play: a shipped name or a JSON file")(
      "scheme", po::value<std::string>()->value_name("NAME|FILE"),
      "scheme whose own families the chart uses, if any")(
      "level-weight", po::value<Words>()->value_name("LEVEL=W"),
      "what a snap of this level counts for, 0 to 1; may be repeated")(
      "half-life", po::value<double>()->default_value(0)->value_name("GAMES"),
      "a game counts half as much so many games later; 0: no decay")(
      "output,o", po::value<std::string>()->value_name("FILE"), "save the profile here");
  options.positional("chart");
  return options;
}

void set_level_weight(Weighting& weighting, const std::string& words) {
  const auto equals = words.find('=');
  const std::string id = words.substr(0, equals);
  for (Level& level : weighting.levels) {
    if (level.id != id) continue;
    std::size_t used = 0;
    const std::string number = equals == std::string::npos ? "" : words.substr(equals + 1);
    try {
      level.weight = std::stod(number, &used);
    } catch (const std::logic_error&) {
      used = 0;
    }
    if (used == 0 || used != number.size() || !(level.weight >= 0 && level.weight <= 1))
      throw po::error("--level-weight " + words + ": give LEVEL=W with W from 0 to 1");
    return;
  }
  throw po::error("--level-weight " + words + ": the setting has no level " + id);
}

Weighting weighting_from(const po::variables_map& values, const Setting& setting) {
  Weighting weighting = weighting_of(setting);
  for (const std::string& words : texts_of(values, "level-weight"))
    set_level_weight(weighting, words);
  weighting.half_life_games = values["half-life"].as<double>();
  if (!(weighting.half_life_games >= 0)) throw po::error("--half-life takes a number, 0 or more");
  return weighting;
}

}  // namespace

int profile_command(const Words& words) {
  Files disk;
  const auto values = profile_options().parse(words, disk);
  if (!values) return exit_ok;
  const Words files = texts_of(*values, "chart");
  if (files.empty()) throw po::required_option("CHART");

  const Setting setting = load_setting(disk, text_of(*values, "setting"));
  const std::string scheme = text_of(*values, "scheme");
  const auto aliases =
      scheme.empty() ? std::vector<FamilyAlias>() : aliases_of(load_scheme(disk, scheme));
  std::string name = text_of(*values, "name");
  if (name.empty()) name = std::filesystem::path(files.front()).stem().string();

  const Profile profile = build_profile(name, load_charts(disk, files, setting, aliases), setting,
                                        weighting_from(*values, setting), aliases);
  const std::string document = profile_to_json(profile, setting);
  const std::string output = text_of(*values, "output");
  if (!output.empty()) disk.write(output, document);
  if (wants_json(*values))
    print_json("profile", {{"charts", files}, {"name", name}, {"setting", setting.id}},
               nlohmann::ordered_json::parse(document));
  else
    std::cout << profile_text(profile, setting);
  return exit_ok;
}

}  // namespace callfit::cli

// Charts into what a case is made of: a profile, a scheme, a setting.
#include "cli/case_words.hpp"
#include "cli/console.hpp"
#include "cli/inputs.hpp"
#include "report/population_json.hpp"

#include <callfit/format/profile.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/format/setting.hpp>
#include <callfit/report/reports.hpp>
#include <callfit/scheme/call_chart.hpp>

#include <format/part.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <iostream>

namespace callfit::cli {
namespace {

Options read_options() {
  Options options(
      {"read CHART... [--as profile|scheme|setting] [-o FILE]",
       "Reads charts (CSV). As a profile: one quarterback's rates, each pulled toward the "
       "population "
       "of the setting, the more so the fewer snaps stand behind it. As a scheme: a coordinator's "
       "call shares by situation, families and demands from --scheme. As a setting: mean and "
       "spread "
       "of every rate from charts of several quarterbacks, one chart each. Prints what it found; "
       "-o "
       "saves it as JSON to read, edit or name in a case.",
       "  callfit read new.csv --name \"New starter\" -o new.profile.json\n"
       "  callfit read calls.csv --as scheme --scheme quick-middle-option -o coordinator.json\n"
       "  callfit read a.csv b.csv c.csv --as setting --id league -o league.json"});
  options.with_json().with_force().add()("chart", po::value<Words>()->value_name("CHART"),
                                         "charts (CSV)")(
      "as", po::value<std::string>()->default_value("profile")->value_name("WHAT"),
      "profile, scheme or setting")(
      "name", po::value<std::string>()->value_name("NAME"),
      "what to call the quarterback or the scheme; else the first chart's file name")(
      "setting", po::value<std::string>()->default_value("college")->value_name("NAME|FILE"),
      "level of play: a shipped name or a JSON file")(
      "scheme", po::value<std::string>()->value_name("NAME|FILE"),
      "scheme that the calls belong to, or whose own families the charts use")(
      "level-weight", po::value<Words>()->value_name("LEVEL=W"),
      "what a snap of this level counts for, 0 to 1; may be repeated")(
      "smoothing",
      real(0, 1e6)
          ->default_value(usual_smoothing, fmt::format("{}", usual_smoothing))
          ->value_name("SNAPS"),
      "how many snaps the overall mix counts for in each situation, 0 to 1000000")(
      "id", po::value<std::string>()->default_value("fitted")->value_name("NAME"),
      "id of the new setting")("output,o", po::value<std::string>()->value_name("FILE"),
                               "save it here");
  add_around_options(options);
  options.positional("chart");
  return options;
}

// What snaps count for, as a case has it.
nlohmann::ordered_json weights_from(const po::variables_map& values, const Setting& setting) {
  auto weights = nlohmann::ordered_json::object();
  for (const std::string& words : texts_of(values, "level-weight")) {
    const auto equals = words.find('=');
    const std::string id = words.substr(0, equals);
    if (setting.find_level(id) == nullptr)
      throw po::error(fmt::format("--level-weight {}: the setting has no level {}", words, id));
    const std::string number = equals == std::string::npos ? "" : words.substr(equals + 1);
    const auto weight = nlohmann::ordered_json::parse(number, nullptr, false);
    if (!weight.is_number() || !(weight >= 0 && weight <= 1))
      throw po::error(fmt::format("--level-weight {}: give LEVEL=W with W from 0 to 1", words));
    weights["level_weights"][id] = weight;
  }
  return weights;
}

// What was read: to keep, and to show.
struct Found {
  std::string document, text;
  nlohmann::ordered_json json;
};

// What faults of a new document are told of. Each is read back before it is written: nothing is
// saved that would be refused later.
std::string place_of(const po::variables_map& values) {
  const std::string output = text_of(values, "output");
  return output.empty() ? "result" : output;
}

Found profile_found(Files& disk, const po::variables_map& values, const Setting& setting) {
  std::string scheme = text_of(values, "scheme");
  if (scheme.empty()) scheme = std::filesystem::path(setting.average_scheme).stem().string();
  const Profile profile =
      open_tape(disk, values, texts_of(values, "chart"), scheme, weights_from(values, setting));
  std::string document = profile_to_json(profile, setting);
  parse_profile(document, place_of(values), setting);
  auto json = nlohmann::ordered_json::parse(document);
  return {std::move(document), profile_text(profile, setting), std::move(json)};
}

Found scheme_found(Files& disk, const po::variables_map& values, const Setting& setting) {
  const Scheme base = load_scheme(disk, required_text(values, "scheme"));
  Scheme scheme = scheme_from_calls(
      base, load_charts(disk, texts_of(values, "chart"), setting, aliases_of(base)),
      number_of(values, "smoothing"));
  const std::string name = text_of(values, "name");
  if (!name.empty()) scheme.name = name;
  std::string document = scheme_to_json(scheme);
  parse_scheme(document, place_of(values), nothing_beside);
  auto json = nlohmann::ordered_json::parse(document);
  return {std::move(document), scheme_text(scheme), std::move(json)};
}

// The old setting as the new one's file must name it: relative to where the new one lies.
std::string based_on(const std::string& name, const std::string& output) {
  namespace fs = std::filesystem;
  const fs::path old = fs::absolute(find_data("settings", name));
  const fs::path place = output.empty() ? fs::current_path() : fs::absolute(output).parent_path();
  return old.lexically_relative(place.lexically_normal()).generic_string();
}

Found setting_found(Files& disk, const po::variables_map& values, const Setting& setting) {
  const std::string id = text_of(values, "id");
  if (!is_name_id(id))
    throw po::error("--id " + id + ": take small letters, digits, - and _, a letter first");
  const std::string scheme = text_of(values, "scheme");
  const auto aliases =
      scheme.empty() ? std::vector<FamilyAlias>() : aliases_of(load_scheme(disk, scheme));
  std::vector<std::vector<Chart>> quarterbacks;
  for (Chart& chart : load_charts(disk, texts_of(values, "chart"), setting, aliases)) {
    quarterbacks.emplace_back();
    quarterbacks.back().push_back(std::move(chart));
  }
  const PopulationFit fit = fit_population(quarterbacks, setting, aliases);
  const std::string base = based_on(text_of(values, "setting"), text_of(values, "output"));
  std::string document = fitted_setting(fit, setting, id, base).dump(2) + '\n';
  parse_setting(document, place_of(values), disk.beside());
  return {std::move(document), population_text(fit, setting), population_json(fit, setting)};
}

Found found_as(const std::string& what, Files& disk, const po::variables_map& values,
               const Setting& setting) {
  if (what == "profile") return profile_found(disk, values, setting);
  if (what == "scheme") return scheme_found(disk, values, setting);
  if (what == "setting") return setting_found(disk, values, setting);
  throw po::error("--as takes profile, scheme or setting, not " + what);
}

}  // namespace

int read_command(const Words& words) {
  Files disk;
  const auto values = read_options().parse(words, disk);
  if (!values) return exit_ok;
  if (texts_of(*values, "chart").empty()) throw po::required_option("CHART");
  const Setting setting = load_setting(disk, text_of(*values, "setting"));
  const std::string what = text_of(*values, "as");
  const Found found = found_as(what, disk, *values, setting);
  const std::string output = text_of(*values, "output");
  if (!output.empty()) disk.write(output, found.document);
  if (wants_json(*values))
    print_json("read",
               {{"charts", texts_of(*values, "chart")}, {"as", what}, {"setting", setting.id}},
               found.json);
  else
    std::cout << found.text;
  return exit_ok;
}

}  // namespace callfit::cli

#include "cli/console.hpp"
#include "cli/dressing.hpp"
#include "cli/inputs.hpp"
#include "report/json.hpp"

#include <callfit/ask/field.hpp>
#include <callfit/graphic/comparison_map.hpp>
#include <callfit/graphic/from_results.hpp>

#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

Options compare_options() {
  Options options(
      {"compare PROFILE... --scheme NAME|FILE [--scheme NAME|FILE ...]",
       "Holds any number of profiles against any number of schemes: fit and points with intervals "
       "that carry what the tape leaves open, and each one's chance of being best. The first two "
       "are also set against each other in words. -o draws the table of quarterbacks by schemes.",
       "  callfit compare new.profile.json last.profile.json --scheme quick-middle-option \\\n"
       "      --scheme balanced -o who-fits-whom.svg"});
  options.with_json().with_draws(2000);
  options.add()("profile", po::value<Words>()->value_name("PROFILE"),
                "profiles (JSON) or charts (CSV)")(
      "scheme", po::value<Words>()->value_name("NAME|FILE"), "schemes; may be repeated")(
      "map", po::value<std::string>()->default_value("points")->value_name("points|fit"),
      "what the drawn table shows: net points per drive, or fit")(
      "output,o", po::value<std::string>()->value_name("FILE"),
      "draw the table (.svg, .png or .pdf)");
  add_setting_options(options);
  add_dress_options(options);
  options.positional("profile");
  return options;
}

// Every pair gets a seed of its own, so that the posteriors are independent of each other.
Entry entry_of(const Profile& profile, const Matchup& matchup, const DrawOptions& options) {
  Entry entry;
  entry.profile = profile.name;
  entry.scheme = matchup.scheme().name;
  entry.fit = fit_report(profile, matchup.bound, matchup.setting,
                         {options.seed, options.draws, options.threads});
  entry.worth = worth_of(profile, matchup, options, progress_line("points of " + profile.name));
  return entry;
}

bool map_of_fit(const po::variables_map& values) {
  const std::string map = text_of(values, "map");
  if (map != "points" && map != "fit") throw po::error("--map takes points or fit, not " + map);
  return map == "fit";
}

// Rows are quarterbacks, columns schemes; entries stand scheme by scheme.
ComparisonMap map_of(const std::vector<Entry>& entries, std::size_t profiles, bool fit) {
  ComparisonMap map;
  map.what = fit ? "fit, of 100" : "net points per drive";
  map.decimals = fit ? 0 : 2;
  map.row_kind = "quarterback";
  map.column_kind = "scheme";
  map.cells.resize(profiles);
  for (std::size_t e = 0; profiles > 0 && e < entries.size(); ++e) {
    if (e < profiles) map.row_labels.push_back(entries[e].profile);
    if (e % profiles == 0) map.column_labels.push_back(entries[e].scheme);
    map.cells[e % profiles].push_back(
        reading_of(fit ? UncertainValue{entries[e].fit.fit_median, entries[e].fit.fit90}
                       : entries[e].worth.net_points));
  }
  return map;
}

void draw(Files& disk, const po::variables_map& values, const ComparisonReport& report,
          std::vector<TapeNote> tape, Dress dress) {
  const std::size_t profiles = tape.size();
  dress.tape = std::move(tape);
  const ComparisonMap map = map_of(report.entries, profiles, map_of_fit(values));
  write_pictures(disk, figure(comparison_panel(map, dress.wording), dress), dress.frame,
                 {text_of(values, "output")});
}

}  // namespace

int compare_command(const Words& words) {
  Files disk;
  const auto values = compare_options().parse(words, disk);
  if (!values) return exit_ok;
  const Words files = texts_of(*values, "profile");
  const Words schemes = texts_of(*values, "scheme");
  if (files.empty()) throw po::required_option("PROFILE");
  if (schemes.empty()) throw po::required_option("--scheme");

  const bool drawn = values->contains("output");
  if (drawn) require_picture_ending(text_of(*values, "output"));
  map_of_fit(*values);
  const Dress dress = dress_from(disk, *values);

  const Setting setting = load_setting(disk, text_of(*values, "setting"));
  const DriveOptions options = drive_options_of(*values);
  const Matchup ground = make_matchup(setting, load_scheme(disk, schemes.front()),
                                      load_average_scheme(disk, setting), options);
  ComparisonReport report;
  report.drives_per_game = setting.drives_per_game;
  std::vector<TapeNote> tape;
  for (const std::string& name : schemes) {
    const Matchup matchup = with_scheme(ground, setting, load_scheme(disk, name), options);
    for (std::size_t p = 0; p < files.size(); ++p) {
      const Profile profile = load_profile(disk, files[p], setting, aliases_of(matchup.scheme()));
      report.entries.push_back(entry_of(
          profile, matchup, {seed_of(*values) + p, draws_of(*values), threads_of(*values)}));
      if (tape.size() < files.size()) tape.push_back(tape_note(profile));
    }
  }
  std::vector<const Worth*> worths;
  for (const Entry& entry : report.entries) worths.push_back(&entry.worth);
  const auto chances = chances_of_being_best(worths);
  for (std::size_t e = 0; e < chances.size(); ++e) report.entries[e].chance_best = chances[e];
  if (worths.size() > 1)
    report.first_two = difference_of(*worths[0], *worths[1], setting.drives_per_game);

  if (drawn) draw(disk, *values, report, std::move(tape), dress);
  if (wants_json(*values))
    print_json("compare",
               {{"profiles", files},
                {"schemes", schemes},
                {"setting", setting.id},
                {"seed", seed_of(*values)},
                {"draws", draws_of(*values)}},
               comparison_json(report));
  else
    std::cout << comparison_text(report);
  return exit_ok;
}

}  // namespace callfit::cli

#include "cli/console.hpp"
#include "cli/inputs.hpp"
#include "report/json.hpp"

#include <callfit/ask/field.hpp>

#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

Options compare_options() {
  Options options(
      {"compare PROFILE... --scheme NAME|FILE [--scheme NAME|FILE ...]",
       "Holds any number of profiles against any number of schemes: fit and points with intervals "
       "that carry what the tape leaves open, and each one's chance of being best. The first two "
       "are also set against each other in words.",
       "  callfit compare new.profile.json last.profile.json --scheme quick-middle-option"});
  options.with_json().with_draws(2000);
  options.add()("profile", po::value<Words>()->value_name("PROFILE"),
                "profiles (JSON) or charts (CSV)")(
      "scheme", po::value<Words>()->value_name("NAME|FILE"), "schemes; may be repeated");
  add_setting_options(options);
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

}  // namespace

int compare_command(const Words& words) {
  const auto values = compare_options().parse(words);
  if (!values) return exit_ok;
  const Words files = texts_of(*values, "profile");
  const Words schemes = texts_of(*values, "scheme");
  if (files.empty()) throw po::required_option("PROFILE");
  if (schemes.empty()) throw po::required_option("--scheme");

  const Setting setting = load_setting(text_of(*values, "setting"));
  const Scheme average = load_average_scheme(setting);
  ComparisonReport report;
  report.drives_per_game = setting.drives_per_game;
  for (const std::string& name : schemes) {
    const Matchup matchup =
        make_matchup(setting, load_scheme(name), average, drive_options_of(*values));
    for (std::size_t p = 0; p < files.size(); ++p)
      report.entries.push_back(
          entry_of(load_profile(files[p], setting, aliases_of(matchup.scheme())), matchup,
                   {seed_of(*values) + p, draws_of(*values), threads_of(*values)}));
  }
  std::vector<const Worth*> worths;
  for (const Entry& entry : report.entries) worths.push_back(&entry.worth);
  const auto chances = chances_of_being_best(worths);
  for (std::size_t e = 0; e < chances.size(); ++e) report.entries[e].chance_best = chances[e];
  if (worths.size() > 1)
    report.first_two = difference_of(*worths[0], *worths[1], setting.drives_per_game);

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

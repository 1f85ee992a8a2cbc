#include "cli/console.hpp"
#include "cli/inputs.hpp"
#include "report/json.hpp"

#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

Options fit_options() {
  Options options(
      {"fit PROFILE --scheme NAME|FILE [--setting NAME|FILE]",
       "Holds a profile against what a scheme demands. Each demand that is not met counts with its "
       "shortfall in units of the spread between quarterbacks, squared, weighted by how often the "
       "family is called; fit = 100 exp(-D^2 / 2). A chart (.csv) may stand for its profile.",
       "  callfit fit new.profile.json --scheme quick-middle-option"});
  options.with_json().with_draws(2000);
  add_matchup_options(options);
  options.add()("profile", po::value<std::string>()->value_name("PROFILE"),
                "profile (JSON) or chart (CSV)");
  options.positional("profile", 1);
  return options;
}

}  // namespace

int fit_command(const Words& words) {
  const auto values = fit_options().parse(words);
  if (!values) return exit_ok;
  const std::string file = required_text(*values, "profile");
  const Matchup matchup = load_matchup(*values);
  const Profile profile = load_profile(file, matchup.setting, aliases_of(matchup.scheme()));
  const FitReport report = fit_report(profile, matchup.bound, matchup.setting,
                                      {seed_of(*values), draws_of(*values), threads_of(*values)});
  if (wants_json(*values))
    print_json("fit",
               {{"profile", file},
                {"scheme", matchup.scheme().id},
                {"setting", matchup.setting.id},
                {"seed", seed_of(*values)},
                {"draws", draws_of(*values)}},
               fit_json(report, matchup.bound, matchup.setting));
  else
    std::cout << fit_text(report, profile, matchup.bound, matchup.setting);
  return exit_ok;
}

}  // namespace callfit::cli

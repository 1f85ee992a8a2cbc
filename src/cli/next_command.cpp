#include "cli/console.hpp"
#include "cli/inputs.hpp"
#include "report/tape_json.hpp"

#include <callfit/report/tape_reports.hpp>

#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

Options next_options() {
  Options options({"next PROFILE --scheme NAME|FILE [--setting NAME|FILE]",
                   "Tells what to chart next: which family's uncertainty makes the fit and the "
                   "points uncertain, and how much ten more snaps of it would narrow the answer. A "
                   "chart (.csv) may stand for its profile.",
                   "  callfit next new.profile.json --scheme quick-middle-option"});
  options.with_json().with_draws(500);
  add_matchup_options(options);
  options.add()("profile", po::value<std::string>()->value_name("PROFILE"),
                "profile (JSON) or chart (CSV)");
  options.positional("profile", 1);
  return options;
}

}  // namespace

int next_command(const Words& words) {
  Files disk;
  const auto values = next_options().parse(words, disk);
  if (!values) return exit_ok;
  const std::string file = required_text(*values, "profile");
  const Matchup matchup = load_matchup(disk, *values);
  const Profile profile = load_profile(disk, file, matchup.setting, aliases_of(matchup.scheme()));
  const ChartingAdvice advice =
      what_to_chart(profile, matchup, {seed_of(*values), draws_of(*values), threads_of(*values)},
                    progress_line("weighing families"));
  if (wants_json(*values))
    print_json("next",
               {{"profile", file},
                {"scheme", matchup.scheme().id},
                {"setting", matchup.setting.id},
                {"seed", seed_of(*values)},
                {"draws", draws_of(*values)}},
               charting_json(advice, matchup.setting));
  else
    std::cout << charting_text(advice, profile, matchup);
  return exit_ok;
}

}  // namespace callfit::cli

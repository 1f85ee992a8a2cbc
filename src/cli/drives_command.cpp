#include "cli/console.hpp"
#include "cli/inputs.hpp"
#include "report/json.hpp"

#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

Options drives_options() {
  Options options(
      {"drives PROFILE --scheme NAME|FILE [--sample N] [--from YARDS] [--down D --to-go Y]",
       "Plays out drives of a profile in a scheme: expected points, net points, how drives end. "
       "The exact engine solves each value; --sample also plays drives at random and shows the "
       "sampling error. PROFILE may be `average` for the setting's average quarterback.",
       "  callfit drives new.profile.json --scheme balanced --from 75 --sample 1000000"});
  options.with_json().with_draws(2000);
  add_matchup_options(options);
  options.add()("profile", po::value<std::string>()->value_name("PROFILE"),
                "profile (JSON), chart (CSV), or the word average")(
      "sample", po::value<std::uint64_t>()->default_value(0)->value_name("N"),
      "also play so many drives at random")(
      "from", po::value<int>()->value_name("YARDS"),
      "start so many yards from the goal; else averaged over the setting's starts")(
      "down", po::value<int>()->default_value(1)->value_name("D"), "down at the start, 1 to 4")(
      "to-go", po::value<int>()->value_name("YARDS"), "yards to go at the start; 10 if not given");
  options.positional("profile", 1);
  return options;
}

std::optional<DriveState> start_from(const po::variables_map& values) {
  const bool has_start = values.contains("from");
  if (!has_start) {
    if (values.contains("to-go") || !values["down"].defaulted())
      throw po::error("--down and --to-go need --from");
    return std::nullopt;
  }
  const int spot = values["from"].as<int>();
  if (spot < 1 || spot > 99) throw po::error("--from takes 1 to 99 yards");
  DriveState state = first_down_at(spot);
  state.down = values["down"].as<int>();
  if (state.down < 1 || state.down > 4) throw po::error("--down takes 1 to 4");
  if (values.contains("to-go")) state.to_go = values["to-go"].as<int>();
  if (state.to_go < 1 || state.to_go > spot)
    throw po::error("--to-go takes 1 to " + std::to_string(spot) + " yards, the goal being there");
  return state;
}

struct Subject {
  Profile profile;
  Player player;
};

Subject load_subject(Files& disk, const std::string& file, const Matchup& matchup) {
  if (file == "average") {
    Profile nobody;
    nobody.name = "Average quarterback";
    return {nobody, average_player(matchup.setting)};
  }
  Profile profile = load_profile(disk, file, matchup.setting, aliases_of(matchup.scheme()));
  Player player = mean_player(profile, matchup.setting);
  return {std::move(profile), std::move(player)};
}

DrivesReport drives_report(const Matchup& matchup, const Player& player,
                           const po::variables_map& values) {
  DrivesReport report;
  report.start = start_from(values);
  report.drives_per_game = matchup.setting.drives_per_game;
  const DriveModel model = compile_drives(matchup, player);
  const ExactDrives drives = solve(model);
  report.exact = report.start ? drives.at(*report.start) : drives.over(matchup.starts);
  if (!report.start) report.situation_visits = drives.situation_visits(matchup.starts);
  const std::uint64_t sample = values["sample"].as<std::uint64_t>();
  if (sample == 0) return report;
  const SampleOptions options{seed_of(values), sample, threads_of(values)};
  const Progress progress = progress_line("playing drives");
  report.sampled = report.start ? simulate(model, *report.start, options, progress)
                                : simulate_over(model, matchup.starts, options, progress);
  return report;
}

}  // namespace

int drives_command(const Words& words) {
  Files disk;
  const auto values = drives_options().parse(words, disk);
  if (!values) return exit_ok;
  const std::string file = required_text(*values, "profile");
  start_from(*values);  // wrong words are told before files are read
  const Matchup matchup = load_matchup(disk, *values);
  const Subject subject = load_subject(disk, file, matchup);
  const DrivesReport report = drives_report(matchup, subject.player, *values);
  if (wants_json(*values))
    print_json("drives",
               {{"profile", file},
                {"scheme", matchup.scheme().id},
                {"setting", matchup.setting.id},
                {"policy", word(matchup.options.policy)},
                {"end_of_half", matchup.options.end_of_half},
                {"seed", seed_of(*values)},
                {"sample", (*values)["sample"].as<std::uint64_t>()}},
               drives_json(report, matchup.scheme()));
  else
    std::cout << drives_text(report, subject.profile, matchup.scheme());
  return exit_ok;
}

}  // namespace callfit::cli

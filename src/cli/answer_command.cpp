// The whole job in one call: charts in; profiles, scheme, fit, drives, comparison and pictures out.
#include "cli/console.hpp"
#include "cli/dressing.hpp"
#include "cli/inputs.hpp"
#include "report/json.hpp"

#include <callfit/ask/field.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/graphic/from_results.hpp>
#include <callfit/report/table.hpp>
#include <callfit/scheme/call_chart.hpp>

#include <nlohmann/json.hpp>

#include <filesystem>
#include <iostream>

namespace callfit::cli {
namespace {

namespace fs = std::filesystem;

Options answer_options() {
  Options options(
      {"answer NEW.csv --last LAST.csv --scheme NAME|FILE [--calls CALLS.csv] -o FOLDER",
       "The whole job: charted snaps of the new and the last starter, and the coordinator's "
       "scheme; "
       "writes both profiles, the fit, the drives, the comparison and the pictures into a folder "
       "and prints the answer. With --calls the scheme's call shares come from the coordinator's "
       "own charted calls, and --scheme gives the families and what they demand.",
       "  callfit answer new.csv --last last.csv --calls coordinator-calls.csv \\\n"
       "      --scheme quick-middle-option -o results"});
  options.with_draws(400);
  add_matchup_options(options);
  add_dress_options(options);
  options.add()("new", po::value<std::string>()->value_name("NEW"),
                "chart (CSV) or profile (JSON) of the new starter")(
      "last", po::value<std::string>()->value_name("LAST"), "the same of the last starter")(
      "new-name", po::value<std::string>()->default_value("New starter")->value_name("NAME"),
      "what to call the new starter")(
      "last-name", po::value<std::string>()->default_value("Last starter")->value_name("NAME"),
      "what to call the last starter")("calls", po::value<std::string>()->value_name("CALLS"),
                                       "chart (CSV) of the coordinator's calls")(
      "calls-name", po::value<std::string>()->value_name("NAME"),
      "what to call the scheme made from --calls")(
      "output,o", po::value<std::string>()->value_name("FOLDER"), "folder for the results");
  options.positional("new", 1);
  return options;
}

Scheme scheme_from(Files& disk, const po::variables_map& values, const Setting& setting) {
  Scheme base = load_scheme(disk, required_text(values, "scheme"));
  const std::string calls = text_of(values, "calls");
  if (calls.empty()) return base;
  const auto charts = load_charts(disk, {calls}, setting, aliases_of(base));
  Scheme scheme = scheme_from_calls(base, charts);
  scheme.id = "coordinator";
  const std::string name = text_of(values, "calls-name");
  scheme.name = name.empty() ? "The coordinator's calls" : name;
  return scheme;
}

// One quarterback's results in the matchup.
struct Side {
  Profile profile;
  FitReport fit;
  Worth worth;
  DriveBands bands;
  DrivesReport drives;
};

Side side_of(Files& disk, const std::string& file, const std::string& name, const Matchup& matchup,
             const DrawOptions& draws) {
  Side side;
  side.profile = load_profile(disk, file, matchup.setting, aliases_of(matchup.scheme()));
  if (fs::path(file).extension() == ".csv") side.profile.name = name;
  side.fit = fit_report(side.profile, matchup.bound, matchup.setting,
                        {draws.seed, draws.draws, draws.threads});
  side.worth = worth_of(side.profile, matchup, draws, progress_line("points, " + name));
  const DrawOptions fewer{draws.seed, std::min<std::size_t>(draws.draws, 100), draws.threads};
  side.bands = drive_bands(side.profile, matchup, fewer, progress_line("drives, " + name));
  const ExactDrives exact =
      solve(compile_drives(matchup, mean_player(side.profile, matchup.setting)));
  side.drives.exact = exact.over(matchup.starts);
  side.drives.situation_visits = exact.situation_visits(matchup.starts);
  side.drives.drives_per_game = matchup.setting.drives_per_game;
  return side;
}

ComparisonReport comparison_of(const Side& first, const Side& second, const Matchup& matchup) {
  ComparisonReport report;
  report.drives_per_game = matchup.setting.drives_per_game;
  const auto chances = chances_of_being_best({&first.worth, &second.worth});
  report.entries = {
      {first.profile.name, matchup.scheme().name, first.fit, first.worth, chances[0]},
      {second.profile.name, matchup.scheme().name, second.fit, second.worth, chances[1]}};
  report.first_two = difference_of(first.worth, second.worth, matchup.setting.drives_per_game);
  return report;
}

// What the command writes; told before anything is read, so that no input is lost.
constexpr const char* all_names[] = {"scheme.json",
                                     "comparison.txt",
                                     "new.profile.json",
                                     "new.profile.txt",
                                     "new.fit.txt",
                                     "new.drives.txt",
                                     "new.results.json",
                                     "last.profile.json",
                                     "last.profile.txt",
                                     "last.fit.txt",
                                     "last.drives.txt",
                                     "last.results.json",
                                     "fit.svg",
                                     "fit.png",
                                     "drive-results.svg",
                                     "drive-results.png",
                                     "points-by-yard.svg",
                                     "points-by-yard.png"};

// Files of one folder, with the list of what was written.
class Folder {
 public:
  Folder(std::string path, Files& disk) : path_(std::move(path)), disk_(disk) {
    for (const char* name : all_names) disk_.will_write((fs::path(path_) / name).string());
    std::error_code failed;
    fs::create_directories(path_, failed);
    if (failed)
      throw InputError(Finding{{path_, 0, ""}, "cannot be made a folder", failed.message()});
  }
  std::string file(const std::string& name) {
    names_.push_back(name);
    return (fs::path(path_) / name).string();
  }
  void text(const std::string& name, const std::string& bytes) { disk_.write(file(name), bytes); }
  Files& disk() { return disk_; }
  std::string listing() const {
    std::string text = "\nWritten to " + path_ + ":";
    for (const std::string& name : names_) text += ' ' + name;
    return text + '\n';
  }

 private:
  std::string path_;
  Files& disk_;
  Words names_;
};

void write_side(Folder& folder, const std::string& stem, const Side& side, const Matchup& matchup) {
  folder.text(stem + ".profile.json", profile_to_json(side.profile, matchup.setting));
  folder.text(stem + ".profile.txt", profile_text(side.profile, matchup.setting));
  folder.text(stem + ".fit.txt", fit_text(side.fit, side.profile, matchup.bound, matchup.setting));
  folder.text(stem + ".drives.txt", drives_text(side.drives, side.profile, matchup.scheme()));
  const Json all{{"fit", fit_json(side.fit, matchup.bound, matchup.setting)},
                 {"drives", drives_json(side.drives, matchup.scheme())},
                 {"worth", to_json(side.worth)}};
  folder.text(stem + ".results.json", all.dump(2) + '\n');
}

void draw(Folder& folder, const std::string& stem, const Panel& panel, const Dress& dress) {
  write_pictures(folder.disk(), figure(panel, dress), dress.frame,
                 {folder.file(stem + ".svg"), folder.file(stem + ".png")});
}

void write_all_pictures(Folder& folder, const Side& first, const Side& second,
                        const Difference& difference, const Matchup& matchup, Dress dress) {
  dress.tape = {tape_note(first.profile), tape_note(second.profile)};
  const Against against{second.profile.name, difference};
  draw(folder, "fit",
       fit_panel(fit_picture(first.profile, first.fit, matchup, against), dress.wording), dress);
  draw(folder, "drive-results",
       drive_results_panel(drive_results_picture(first.profile, first.bands, second.profile,
                                                 second.bands, difference, matchup),
                           dress.wording),
       dress);
  draw(folder, "points-by-yard",
       points_by_yard_panel(points_by_yard({first.profile.name, second.profile.name},
                                           {first.bands, second.bands}, matchup, true),
                            dress.wording),
       dress);
}

}  // namespace

int answer_command(const Words& words) {
  Files disk;
  const auto values = answer_options().parse(words, disk);
  if (!values) return exit_ok;
  const std::string new_file = required_text(*values, "new");
  const std::string last_file = required_text(*values, "last");
  Folder folder(required_text(*values, "output"), disk);
  const Dress dress = dress_from(disk, *values);

  const Setting setting = load_setting(disk, text_of(*values, "setting"));
  const Matchup matchup =
      make_matchup(setting, scheme_from(disk, *values, setting), load_average_scheme(disk, setting),
                   drive_options_of(*values));
  const DrawOptions draws{seed_of(*values), draws_of(*values), threads_of(*values)};
  const Side first = side_of(disk, new_file, text_of(*values, "new-name"), matchup, draws);
  const Side second = side_of(disk, last_file, text_of(*values, "last-name"), matchup,
                              {draws.seed + 1, draws.draws, draws.threads});
  const ComparisonReport comparison = comparison_of(first, second, matchup);

  folder.text("scheme.json", scheme_to_json(matchup.scheme()));
  write_side(folder, "new", first, matchup);
  write_side(folder, "last", second, matchup);
  folder.text("comparison.txt", comparison_text(comparison));
  write_all_pictures(folder, first, second, *comparison.first_two, matchup, dress);
  std::cout << fit_text(first.fit, first.profile, matchup.bound, matchup.setting) << '\n'
            << comparison_text(comparison) << folder.listing();
  return exit_ok;
}

}  // namespace callfit::cli

#include "cli/pictures.hpp"

#include "cli/console.hpp"
#include "cli/inputs.hpp"

#include <callfit/base/nearest.hpp>
#include <callfit/graphic/from_results.hpp>

#include <algorithm>
#include <filesystem>
#include <optional>

namespace callfit::cli {
namespace {

struct Scene {
  Files& disk;
  const std::string& file;
  const std::string& against;
  const Matchup& matchup;
  const DrawOptions& draws;
  Dress& dress;
  mutable std::optional<Difference> difference{};  ///< worked out once, however many panels ask

  Profile load(const std::string& name) const {
    Profile profile = load_profile(disk, name, matchup.setting, aliases_of(matchup.scheme()));
    const bool noted = std::any_of(dress.tape.begin(), dress.tape.end(), [&](const TapeNote& note) {
      return note.player == profile.name;
    });
    if (!noted) dress.tape.push_back(tape_note(profile));
    return profile;
  }
  // The second quarterback has draws of his own.
  DrawOptions second() const { return {draws.seed + 1, draws.draws, draws.threads}; }
};

Difference difference_between(const Profile& first, const Profile& second, const Scene& scene) {
  if (scene.difference) return *scene.difference;
  const Worth a = worth_of(first, scene.matchup, scene.draws, progress_line(first.name));
  const Worth b = worth_of(second, scene.matchup, scene.second(), progress_line(second.name));
  scene.difference = difference_of(a, b, scene.matchup.setting.drives_per_game);
  return *scene.difference;
}

Panel fit_scene(const Scene& scene) {
  const Profile profile = scene.load(scene.file);
  const FitReport report = fit_report(profile, scene.matchup.bound, scene.matchup.setting,
                                      {scene.draws.seed, scene.draws.draws, scene.draws.threads});
  std::optional<Against> against;
  if (!scene.against.empty()) {
    const Profile last = scene.load(scene.against);
    against = Against{last.name, difference_between(profile, last, scene)};
  }
  return fit_panel(fit_picture(profile, report, scene.matchup, against), scene.dress.wording);
}

bool is_chart(const std::string& file) { return std::filesystem::path(file).extension() == ".csv"; }

Panel throws_scene(const Scene& scene) {
  if (!is_chart(scene.file))
    throw po::error("--picture throws needs the chart (.csv), not the profile");
  const Profile profile = scene.load(scene.file);
  const auto aliases = aliases_of(scene.matchup.scheme());
  const auto charts = load_charts(scene.disk, {scene.file}, scene.matchup.setting, aliases);
  const auto zones = throw_zones(charts, scene.matchup.setting, profile.weighting, aliases);
  return throw_map_panel(throw_map(profile.name, zones, scene.matchup.setting),
                         scene.dress.wording);
}

Panel results_scene(const Scene& scene) {
  if (scene.against.empty()) throw po::error("--picture results needs --against");
  const Profile first = scene.load(scene.file);
  const Profile second = scene.load(scene.against);
  const DriveBands a = drive_bands(first, scene.matchup, scene.draws, progress_line(first.name));
  const DriveBands b =
      drive_bands(second, scene.matchup, scene.second(), progress_line(second.name));
  return drive_results_panel(
      drive_results_picture(first, a, second, b, difference_between(first, second, scene),
                            scene.matchup),
      scene.dress.wording);
}

Panel points_scene(const Scene& scene) {
  const Profile first = scene.load(scene.file);
  std::vector<std::string> names{first.name};
  std::vector<DriveBands> bands{
      drive_bands(first, scene.matchup, scene.draws, progress_line(first.name))};
  if (!scene.against.empty()) {
    const Profile second = scene.load(scene.against);
    names.push_back(second.name);
    bands.push_back(drive_bands(second, scene.matchup, scene.second(), progress_line(second.name)));
  }
  return points_by_yard_panel(points_by_yard(names, bands, scene.matchup, true),
                              scene.dress.wording);
}

Panel panel_of(const std::string& picture, const Scene& scene) {
  if (picture == "fit") return fit_scene(scene);
  if (picture == "throws") return throws_scene(scene);
  if (picture == "results") return results_scene(scene);
  if (picture == "points") return points_scene(scene);
  const Words known{"fit", "throws", "results", "points"};
  throw po::error("--picture " + picture + ": " + suggest(picture, known));
}

Figure sheet_of(const Words& names, const Scene& scene) {
  const std::size_t most = most_panels(scene.dress.frame);
  if (names.size() > most)
    throw po::error("--picture: this frame takes " + std::to_string(most) + " panels at most");
  std::vector<Panel> panels;
  panels.reserve(names.size());
  for (const std::string& name : names) panels.push_back(panel_of(name, scene));
  Telling telling = panels.front().telling;
  telling.headline = scene.dress.wording("fit_title", {{"player", scene.dress.tape.front().player},
                                                       {"scheme", scene.matchup.scheme().name}});
  for (std::size_t i = 1; i < panels.size(); ++i)
    telling.description += ' ' + panels[i].telling.description;
  return sheet(telling, panels, scene.dress);
}

}  // namespace

Figure picture_figure(Files& disk, const Words& pictures, const std::string& file,
                      const std::string& against, const Matchup& matchup, const DrawOptions& draws,
                      Dress& dress) {
  const Scene scene{disk, file, against, matchup, draws, dress};
  return pictures.size() > 1 ? sheet_of(pictures, scene)
                             : figure(panel_of(pictures.front(), scene), dress);
}

}  // namespace callfit::cli

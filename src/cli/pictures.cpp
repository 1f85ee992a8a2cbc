#include "cli/pictures.hpp"

#include "cli/console.hpp"
#include "cli/inputs.hpp"

#include <callfit/base/nearest.hpp>
#include <callfit/graphic/from_results.hpp>

#include <filesystem>
#include <optional>

namespace callfit::cli {
namespace {

struct Scene {
  const std::string& file;
  const std::string& against;
  const Matchup& matchup;
  const DrawOptions& draws;
  Dress& dress;

  Profile load(const std::string& name) const {
    Profile profile = load_profile(name, matchup.setting, aliases_of(matchup.scheme()));
    dress.tape.push_back(tape_note(profile));
    return profile;
  }
  // The second quarterback has draws of his own.
  DrawOptions second() const { return {draws.seed + 1, draws.draws, draws.threads}; }
};

Difference difference_between(const Profile& first, const Profile& second, const Scene& scene) {
  const Worth a = worth_of(first, scene.matchup, scene.draws, progress_line(first.name));
  const Worth b = worth_of(second, scene.matchup, scene.second(), progress_line(second.name));
  return difference_of(a, b, scene.matchup.setting.drives_per_game);
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

Panel throws_scene(const Scene& scene) {
  if (std::filesystem::path(scene.file).extension() != ".csv")
    throw po::error("--picture throws needs the chart (.csv), not the profile");
  const Profile profile = scene.load(scene.file);
  const auto aliases = aliases_of(scene.matchup.scheme());
  const auto charts = load_charts({scene.file}, scene.matchup.setting, aliases);
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

}  // namespace

Panel picture_panel(const std::string& picture, const std::string& file, const std::string& against,
                    const Matchup& matchup, const DrawOptions& draws, Dress& dress) {
  const Scene scene{file, against, matchup, draws, dress};
  if (picture == "fit") return fit_scene(scene);
  if (picture == "throws") return throws_scene(scene);
  if (picture == "results") return results_scene(scene);
  if (picture == "points") return points_scene(scene);
  const Words known{"fit", "throws", "results", "points"};
  throw po::error("--picture " + picture + ": " + suggest(picture, known));
}

}  // namespace callfit::cli

#include "cli/pictures.hpp"

#include "cli/options.hpp"

#include <callfit/base/nearest.hpp>
#include <callfit/graphic/pictures.hpp>
#include <callfit/profile/throw_zones.hpp>

#include <algorithm>
#include <optional>

namespace callfit::cli {
namespace {

constexpr std::size_t levers_drawn = 12;
const Words known{"fit", "throws", "results", "points", "map"};

// Asks what a picture shows and notes whose tape stands behind it.
class Scene {
 public:
  Scene(Study& study, const Stand& stand, Dress& dress)
      : study_(study), stand_(stand), dress_(dress) {}

  Panel panel(const std::string& picture) {
    if (picture == "fit") return fit();
    if (picture == "throws") return throws();
    if (picture == "results") return results();
    if (picture == "points") return points();
    if (picture == "map") return map();
    throw po::error("--picture " + picture + ": " + suggest(picture, known));
  }

 private:
  template <class Wanted>
  Wanted ask(const Request& request) {
    return std::get<Wanted>(study_.answer(request));
  }

  bool has_other() const { return study_.about().quarterbacks.size() > 1; }
  Stand other() const {
    Stand second = stand_;
    second.quarterback = stand_.quarterback == 1 ? 0 : 1;
    return second;
  }

  void note(const About& about) {
    const bool noted =
        std::any_of(dress_.tape.begin(), dress_.tape.end(),
                    [&about](const About& one) { return one.quarterback == about.quarterback; });
    if (!noted) dress_.tape.push_back(about);
  }

  DifferenceAnswer difference() {
    return ask<BriefAnswer>(BriefRequest{stand_, other()}).difference;
  }

  Panel fit() {
    const FitScene scene = fit_scene(study_, stand_);
    for (const About& about : scene.tape) note(about);
    return fit_panel(scene.fit, scene.against, dress_.wording);
  }

  Panel throws() {
    const Quarterback& quarterback = study_.about().quarterbacks[stand_.quarterback];
    if (!quarterback.tape)
      throw po::error("--picture throws needs the chart (.csv), not the profile");
    const auto zones = throw_zones(quarterback.tape->charts, study_.about().setting,
                                   quarterback.profile.weighting, quarterback.tape->like);
    const About about = ask<FitAnswer>(FitRequest{stand_, false}).about;
    note(about);
    return throws_panel(about, zones, study_.about().setting.rules.hash_gap, dress_.wording);
  }

  std::optional<DrivesAgainst> against_drives() {
    if (!has_other()) return std::nullopt;
    DrivesAgainst against{ask<DrivesAnswer>(DrivesRequest{other(), {}, 0}), difference()};
    note(against.drives.about);
    return against;
  }

  Panel results() {
    if (!has_other()) throw po::error("--picture results needs a second quarterback");
    const auto first = ask<DrivesAnswer>(DrivesRequest{stand_, {}, 0});
    note(first.about);
    return drive_results_panel(first, *against_drives(), dress_.wording);
  }

  Panel points() {
    const auto first = ask<DrivesAnswer>(DrivesRequest{stand_, {}, 0});
    note(first.about);
    return points_by_yard_panel(first, against_drives(), dress_.wording);
  }

  Panel map() {
    const auto all = ask<CompareAnswer>(CompareRequest{});
    for (const EntryAnswer& entry : all.entries) note(entry.about);
    return comparison_panel(all, dress_.wording);
  }

  Study& study_;
  const Stand& stand_;
  Dress& dress_;
};

Figure sheet_of(const Words& names, Scene& scene, const Dress& dress, const std::string& title) {
  const std::size_t most = most_panels(dress.frame);
  if (names.size() > most)
    throw po::error("--picture: this frame takes " + std::to_string(most) + " panels at most");
  std::vector<Panel> panels;
  panels.reserve(names.size());
  for (const std::string& name : names) panels.push_back(scene.panel(name));
  Telling telling = panels.front().telling;
  telling.headline = title;
  for (std::size_t i = 1; i < panels.size(); ++i)
    telling.description += ' ' + panels[i].telling.description;
  return sheet(telling, panels, dress);
}

}  // namespace

void require_pictures(const Words& pictures) {
  for (const std::string& picture : pictures)
    if (std::find(known.begin(), known.end(), picture) == known.end())
      throw po::error("--picture " + picture + ": " + suggest(picture, known));
}

Figure picture_figure(const Words& pictures, Study& study, const Stand& stand, const Dress& dress) {
  Dress noted = dress;
  Scene scene(study, stand, noted);
  if (pictures.size() == 1) {
    const Panel panel = scene.panel(pictures.front());
    return figure(panel, noted);
  }
  const Case& about = study.about();
  const std::string title =
      noted.wording("fit_kicker", {{"player", about.quarterbacks[stand.quarterback].profile.name},
                                   {"scheme", about.schemes[stand.scheme].name}});
  return sheet_of(pictures, scene, noted, title);
}

Figure answer_figure(const Answer& answer, const Dress& dress) {
  Dress noted = dress;
  if (const auto* sweep = std::get_if<SweepAnswer>(&answer)) {
    noted.tape = {sweep->about};
    return figure(sweep_panel(*sweep, noted.wording), noted);
  }
  if (const auto* levers = std::get_if<LeversAnswer>(&answer)) {
    noted.tape = {levers->about};
    return figure(levers_panel(*levers, levers_drawn, noted.wording), noted);
  }
  if (const auto* trend = std::get_if<TrendAnswer>(&answer)) {
    noted.tape = {trend->about};
    return figure(trend_panel(*trend, noted.wording), noted);
  }
  throw po::error("--output: only sweeps, levers and trends have a picture of their own");
}

}  // namespace callfit::cli

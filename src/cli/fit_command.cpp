#include "cli/console.hpp"
#include "cli/inputs.hpp"
#include "report/question_json.hpp"

#include <nlohmann/json.hpp>

#include <iostream>
#include <optional>

namespace callfit::cli {
namespace {

Options fit_options() {
  Options options(
      {"fit PROFILE --scheme NAME|FILE [--setting NAME|FILE]",
       "Holds a profile against what a scheme demands. Each demand that is not met counts with its "
       "shortfall in units of the spread between quarterbacks, squared, weighted by how often the "
       "family is called; fit = 100 exp(-D^2 / 2). A chart (.csv) may stand for its profile. "
       "--weights points weighs each demand by the net points that it brings instead, and shows "
       "how far the two ways agree.",
       "  callfit fit new.profile.json --scheme quick-middle-option"});
  options.with_json().with_draws(2000);
  add_matchup_options(options);
  options.add()("profile", po::value<std::string>()->value_name("PROFILE"),
                "profile (JSON) or chart (CSV)")(
      "weights", po::value<std::string>()->default_value("scheme")->value_name("scheme|points"),
      "weights of demands: the scheme's, or what scores");
  options.positional("profile", 1);
  return options;
}

constexpr std::size_t compared_quarterbacks = 200;

bool by_points(const po::variables_map& values) {
  const std::string weights = text_of(values, "weights");
  if (weights != "scheme" && weights != "points")
    throw po::error("--weights takes scheme or points, not " + weights);
  return weights == "points";
}

}  // namespace

int fit_command(const Words& words) {
  Files disk;
  const auto values = fit_options().parse(words, disk);
  if (!values) return exit_ok;
  const std::string file = required_text(*values, "profile");
  const bool points = by_points(*values);
  const Matchup matchup = load_matchup(disk, *values);
  const BoundScheme bound = points ? weighed_by_points(matchup) : matchup.bound;
  const Profile profile = load_profile(disk, file, matchup.setting, aliases_of(matchup.scheme()));
  const FitReport report = fit_report(profile, bound, matchup.setting,
                                      {seed_of(*values), draws_of(*values), threads_of(*values)});
  std::optional<WeightAgreement> agreement;
  if (points)
    agreement = weight_agreement(matchup, bound, compared_quarterbacks, seed_of(*values),
                                 threads_of(*values));
  if (wants_json(*values)) {
    Json json = fit_json(report, bound, matchup.setting);
    if (agreement) json["weights_by_points"] = agreement_json(*agreement);
    print_json("fit",
               {{"profile", file},
                {"scheme", matchup.scheme().id},
                {"setting", matchup.setting.id},
                {"weights", text_of(*values, "weights")},
                {"seed", seed_of(*values)},
                {"draws", draws_of(*values)}},
               json);
  } else {
    std::cout << fit_text(report, profile, bound, matchup.setting);
    if (agreement) std::cout << weights_text(matchup.bound, bound, *agreement);
  }
  return exit_ok;
}

}  // namespace callfit::cli

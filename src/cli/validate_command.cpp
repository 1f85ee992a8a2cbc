#include "cli/console.hpp"
#include "cli/dressing.hpp"
#include "cli/inputs.hpp"
#include "report/validation_json.hpp"

#include <callfit/graphic/validation_picture.hpp>
#include <callfit/report/validation_report.hpp>
#include <callfit/validate/validate.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <iostream>

namespace callfit::cli {
namespace {

Options validate_options() {
  Options options(
      {"validate SETTING [--observed NAME|FILE] [-o FILE...]",
       "Holds a setting against real drives: its average offence in its average scheme, solved "
       "exactly, beside drive results, series, third downs, the red zone and expected points that "
       "were counted, and beside published ones. None of these made the setting. -o draws the "
       "drive results.",
       "  callfit validate pro -o validation.svg"});
  options.with_json();
  add_dress_options(options);
  options.add()("setting", po::value<std::string>()->value_name("SETTING"),
                "a shipped setting or a file")(
      "observed", po::value<std::string>()->default_value("pro-2015-2018")->value_name("NAME|FILE"),
      "what real drives did: shipped in settings/observed, or a file")(
      "output,o", po::value<Words>()->value_name("FILE"),
      "also draw: .svg, .png or .pdf; may be repeated");
  options.positional("setting", 1);
  return options;
}

constexpr double ends90 = 1.6449;  // standard normal quantile of .95

// Drive results as bars with the sampling error of what was counted.
Panel picture_of(const ValidationReport& report, const Wording& wording) {
  ValidationPicture picture;
  picture.what = "drive results";
  picture.source = report.setting;
  const DrivesCompared& all = report.drives.front();
  for (std::size_t r = 0; r < static_cast<std::size_t>(DriveResult::end_of_half); ++r) {
    const double share = all.observed.share[r];
    const double error = ends90 * std::sqrt(share * (1 - share) / all.observed.n);
    std::string label(word(static_cast<DriveResult>(r)));
    std::replace(label.begin(), label.end(), '_', ' ');
    picture.rows.push_back(
        {label, all.model.share[r], {share, std::max(0.0, share - error), share + error}, true});
  }
  return validation_panel(picture, wording);
}

}  // namespace

int validate_command(const Words& words) {
  Files disk;
  const auto values = validate_options().parse(words, disk);
  if (!values) return exit_ok;
  const std::string name = required_text(*values, "setting");
  const Words outputs = texts_of(*values, "output");
  for (const std::string& output : outputs) require_picture_ending(output);
  Dress dress = dress_from(disk, *values);
  const Setting setting = load_setting(disk, name);
  const Observed observed =
      disk.observed(find_data("settings/observed", text_of(*values, "observed")));
  if (observed.setting != setting.id)
    std::cerr << "notice: " << observed.id << " was counted for setting " << observed.setting
              << ", not for " << setting.id << '\n';
  const ValidationReport report =
      validate_setting(setting, load_average_scheme(disk, setting), observed);
  if (!outputs.empty()) {
    if (dress.tape_source.empty()) dress.tape_source = report.source;
    write_pictures(disk, figure(picture_of(report, dress.wording), dress), dress.frame, outputs);
  }
  if (wants_json(*values))
    print_json("validate", {{"setting", setting.id}, {"observed", observed.id}},
               validation_json(report));
  else
    std::cout << validation_text(report);
  return exit_ok;
}

}  // namespace callfit::cli

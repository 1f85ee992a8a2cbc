#include "cli/console.hpp"
#include "cli/dressing.hpp"
#include "cli/inputs.hpp"
#include "cli/pictures.hpp"

#include <iostream>

namespace callfit::cli {
namespace {

Options graphic_options() {
  Options options(
      {"graphic PROFILE --scheme NAME|FILE [--against PROFILE] [--picture NAME] -o FILE...",
       "Draws the answer as SVG, PNG or PDF, by the file's ending; -o may be repeated, all from "
       "one drawing. Pictures: fit (who fits which scheme), throws (map of throws; needs a chart), "
       "results (how drives end for two quarterbacks), points (net points by yard line); several "
       "become panels of one, 4 in a wide frame, 3 in a story, 2 in a tall one. levers, whatif "
       "--sweep, compare and trend draw "
       "their own with -o.",
       "  callfit graphic new.profile.json --against last.profile.json \\\n"
       "      --scheme coordinator.json -o fit.svg -o fit.png --frame tall --theme dark"});
  options.with_draws(1000);
  add_matchup_options(options);
  add_dress_options(options);
  options.add()("profile", po::value<std::string>()->value_name("PROFILE"),
                "profile (JSON) or chart (CSV)")(
      "against", po::value<std::string>()->value_name("PROFILE"), "the last starter")(
      "picture", po::value<Words>()->value_name("NAME"),
      "fit (unless told otherwise), throws, results or points; several: panels of one picture")(
      "output,o", po::value<Words>()->value_name("FILE"),
      "where to write: .svg, .png or .pdf; may be repeated");
  options.positional("profile", 1);
  return options;
}

}  // namespace

int graphic_command(const Words& words) {
  Files disk;
  const auto values = graphic_options().parse(words, disk);
  if (!values) return exit_ok;
  const std::string file = required_text(*values, "profile");
  const std::string against = text_of(*values, "against");
  const Words outputs = texts_of(*values, "output");
  if (outputs.empty()) throw po::required_option("--output");
  for (const std::string& output : outputs) require_picture_ending(output);

  const Words pictures = texts_of(*values, "picture");
  const Matchup matchup = load_matchup(disk, *values);
  const DrawOptions draws{seed_of(*values), draws_of(*values), threads_of(*values)};
  Dress dress = dress_from(disk, *values);
  const Figure figure = picture_figure(disk, pictures.empty() ? Words{"fit"} : pictures, file,
                                       against, matchup, draws, dress);
  write_pictures(disk, figure, dress.frame, outputs);
  for (const std::string& output : outputs) std::cout << output << '\n';
  return exit_ok;
}

}  // namespace callfit::cli

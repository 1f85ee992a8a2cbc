#include "cli/asking.hpp"
#include "cli/case_words.hpp"
#include "cli/console.hpp"
#include "cli/dressing.hpp"
#include "cli/pictures.hpp"

#include <iostream>

namespace callfit::cli {
namespace {

Options trend_options() {
  Options options(
      {"trend CASE | CHART... --scheme NAME|FILE [--before N] [-o FILE...]",
       "Follows a season: after each game, what is known of what the scheme demands, the fit and "
       "the net points, with 90% intervals. All charts are of one quarterback; the first --before "
       "of them are earlier tape, whose answer stands first. -o draws it as small charts.",
       "  callfit trend camp.csv season.csv --before 1 --scheme balanced -o trend.svg"});
  options.with_json().with_force();
  add_case_options(options);
  add_stand_options(options);
  add_dress_options(options);
  options.add()("before", whole(0, 1000)->default_value(0, "0"),
                "how many of the charts are earlier tape")(
      "kept", po::value<Words>()->value_name("FILE"),
      "what was said before (answer --keep), to be scored; may be repeated")(
      "output,o", po::value<Words>()->value_name("FILE"), "draw: .svg, .png or .pdf");
  return options;
}

}  // namespace

int trend_command(const Words& words) {
  Files disk;
  const auto values = trend_options().parse(words, disk);
  if (!values) return exit_ok;
  const Words outputs = texts_of(*values, "output");
  for (const std::string& output : outputs) require_picture_ending(output);
  const OpenedCase opened = open_case(disk, *values, Charts::of_one);
  Study study(opened.about, threads_of(*values));
  TrendRequest request{stand_of(*values, opened.about), whole_of(*values, "before"), {}};
  for (const std::string& file : texts_of(*values, "kept")) request.kept.push_back(disk.kept(file));
  const Asked asked = ask_all(study, {request}, progress_line("following"));
  if (!outputs.empty()) {
    const Dress dress = dress_from(disk, *values, opened.about);
    write_pictures(disk, answer_figure(asked.answers.front(), dress), dress.frame, outputs);
  }
  std::cout << (wants_json(*values) ? asked.json : asked.text);
  return exit_ok;
}

}  // namespace callfit::cli

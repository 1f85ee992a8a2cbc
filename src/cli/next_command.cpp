#include "cli/asking.hpp"
#include "cli/case_words.hpp"
#include "cli/console.hpp"

#include <iostream>

namespace callfit::cli {
namespace {

Options next_options() {
  Options options({"next CASE | QUARTERBACK --scheme NAME|FILE [--snaps N]",
                   "What to chart next: how much narrower the intervals of points and fit become "
                   "with some more "
                   "snaps of each family, most worth first.",
                   "  callfit next case.json --snaps 40"});
  options.with_json();
  add_case_options(options);
  add_stand_options(options);
  options.add()("snaps", real(1, 1000)->default_value(40, "40")->value_name("N"),
                "further snaps of a family, 1 to 1000");
  return options;
}

}  // namespace

int next_command(const Words& words) {
  Files disk;
  const auto values = next_options().parse(words, disk);
  if (!values) return exit_ok;
  const double snaps = number_of(*values, "snaps");
  const OpenedCase opened = open_case(disk, *values);
  Study study(opened.about, threads_of(*values));
  const Asked asked = ask_all(study, {NextRequest{stand_of(*values, opened.about), snaps}},
                              progress_line("looking"));
  std::cout << (wants_json(*values) ? asked.json : asked.text);
  return exit_ok;
}

}  // namespace callfit::cli

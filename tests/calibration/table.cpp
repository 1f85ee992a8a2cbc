// Prints the table of coverage: every kind of rate and gain, every number of snaps, every way of
// charting. `cmake --build ... --target calibration` writes it into docs/.
#include "calibration.hpp"

#include "../support/example_setting.hpp"
#include "joint.hpp"

#include <callfit/files/files.hpp>

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string>
#include <vector>

using namespace callfit;
using namespace callfit::testing;

namespace {

constexpr std::array snap_counts{5, 15, 50, 200};

struct Part {
  std::string title;
  ChartPlan plan;
};

std::vector<Part> parts() {
  ChartPlan plain;
  ChartPlan success = plain;
  success.yards = Yards::success;
  ChartPlan explosive = plain;
  explosive.yards = Yards::explosive;
  ChartPlan blank = plain;
  blank.shells_charted = false;
  ChartPlan platform = plain;
  platform.by_platform = true;
  ChartPlan two_levels = plain;
  two_levels.levels = {"pro", "college"};
  ChartPlan discounted = plain;
  discounted.levels = {"pro", "high_school"};
  ChartPlan only_yards = plain;
  only_yards.depth_charted = false;
  return {{"Shell charted", plain},
          {"Success counted", success},
          {"Explosive plays counted", explosive},
          {"Shell left blank", blank},
          {"Platform charted", platform},
          {"Two levels, both of full weight, completions shifted by 0.3", two_levels},
          {"Two levels, one of weight 0.4, completions shifted by 0.6", discounted},
          {"Only yards charted, not depth", only_yards}};
}

void print_table(const std::string& title, const std::string& head,
                 const std::vector<std::vector<callfit::testing::Coverage>>& columns) {
  fmt::print("\n## {}\n\n| |{} least p |\n|---|", title, head);
  for (std::size_t c = 0; c <= columns.size(); ++c) fmt::print("---|");
  fmt::print("\n");
  for (std::size_t q = 0; q < columns.front().size(); ++q) {
    double least = 1;
    fmt::print("| {} |", columns.front()[q].quantity.name);
    for (const auto& column : columns) {
      const callfit::testing::Coverage& coverage = column[q];
      least = std::min(least, coverage.p_value());
      if (coverage.quantity.gain)
        fmt::print(" {:.1f} |", 100 * coverage.share());
      else
        fmt::print(" {:.1f} / {:.1f} |", 100 * coverage.interval_share(), 100 * coverage.share());
    }
    fmt::print(" {:.2g} |\n", least);
  }
}

void print_part(const Part& part, std::size_t players) {
  const Setting setting = example_setting();
  std::vector<std::vector<callfit::testing::Coverage>> columns;
  for (const int snaps : snap_counts) {
    Experiment experiment{part.plan, players, 1};
    experiment.plan.snaps = snaps;
    columns.push_back(calibrate(experiment, setting, setting));
  }
  print_table(part.title, " 5 snaps | 15 snaps | 50 snaps | 200 snaps |", columns);
}

std::vector<SeasonPlan> season_plans() {
  return {{"Rates that go together: games against an opponent each, not named", {"pro"}, false},
          {"Rates that go together: three opponents, met again and again", {"pro"}, true, 3},
          {"Rates that go together: every second game college", {"pro", "college"}, true}};
}

void print_season(const SeasonPlan& plan, std::size_t players) {
  const Setting setting = Files().setting(CALLFIT_SOURCE_DIR "/settings/pro.json");
  std::vector<std::vector<callfit::testing::Coverage>> columns;
  for (const int games : {1, 4, 12})
    columns.push_back(calibrate_joint(plan, games, players, 1, setting, setting));
  print_table(plan.title, " 30 snaps | 120 snaps | 360 snaps |", columns);
}

}  // namespace

int main(int argc, char** argv) {
  const std::size_t players = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 4000;
  const std::size_t only = argc > 2 ? std::strtoul(argv[2], nullptr, 10) : 0;  // one part, from 1
  fmt::print(
      "# Coverage of 90% intervals, in percent\n\nMade by `cmake --build --preset release "
      "--target calibration`: {} players a cell, {} where rates go together, seed 1. What the "
      "cells "
      "mean: [calibration.md](calibration.md).\n",
      players, players / 4);
  const std::vector<Part> all = parts();
  for (std::size_t p = 0; p < all.size(); ++p)
    if (only == 0 || only == p + 1) print_part(all[p], players);
  const std::vector<SeasonPlan> seasons = season_plans();
  for (std::size_t s = 0; s < seasons.size(); ++s)
    if (only == 0 || only == all.size() + s + 1) print_season(seasons[s], players / 4);
  return 0;
}

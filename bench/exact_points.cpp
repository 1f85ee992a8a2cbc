// Writes tests/ask/exact_points.json: ends and middle of the points of 20,000 posterior draws, each
// solved exactly, and of the first of them as many as a study has, for three quarterbacks in the
// demo's scheme: its new starter, his first 40 snaps, and somebody of whom nothing was charted.
// Takes some twenty minutes of processor time; tests/ask/exact_points_test.cpp reads the file.
#include "demo_case.hpp"
#include "three_men.hpp"

#include <ask/memory.hpp>
#include <callfit/base/parallel.hpp>
#include <callfit/stats/interval.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdio>
#include <exception>

using namespace callfit;
using namespace callfit::ask;
using Json = nlohmann::ordered_json;

namespace {

constexpr std::size_t all_draws = 20'000;

Json ends_of(Column draws, std::size_t count) {
  draws.resize(count);
  std::sort(draws.begin(), draws.end());
  return {{"draws", count},
          {"low", quantile_of(draws, 0.05)},
          {"centre", quantile_of(draws, 0.5)},
          {"high", quantile_of(draws, 0.95)}};
}

Json exact_ends(const Matchup& matchup, const Sample& sample) {
  Column points(sample.size());
  Column net(sample.size());
  sample.fill();
  for_each_unit(sample.size(), 0, [&](std::size_t i) {
    const PointValues values =
        solve_points(compile_drives(matchup, sample.player_at(i)), {1e-8, nullptr});
    points[i] = values.points_over(matchup.starts);
    net[i] = values.net_over(matchup.starts);
  });
  return {{"points", {ends_of(points, default_draws), ends_of(points, all_draws)}},
          {"net_points", {ends_of(net, default_draws), ends_of(net, all_draws)}}};
}

}  // namespace

int main() {
  try {
    Files disk;
    disk.replace_all();  // what was made before
    Memory memory(callfit::testing::demo_case(all_draws), 0);
    const auto matchup = memory.matchup(0);
    Json document = Json::object();
    for (const auto& [name, profile] : callfit::testing::three_men(memory.about())) {
      document[name] = exact_ends(*matchup, *memory.standing_of(profile, 0, 0).sample);
      std::fprintf(stderr, "%s done\n", name.c_str());
    }
    disk.write(std::string(CALLFIT_SOURCE_DIR) + "/tests/ask/exact_points.json",
               document.dump(2) + "\n");
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  return 0;
}

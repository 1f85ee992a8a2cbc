// The compiled outcome table against the snap written a second time from the document.
#include "second_compile.hpp"
#include "fixture.hpp"

#include <callfit/fit/fit.hpp>
#include <callfit/profile/draws.hpp>
#include <drive/states.hpp>
#include <drive/table.hpp>

#include <callfit/files/files.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

using namespace callfit;

namespace {

struct Field {
  Setting setting;
  Scheme scheme;
  std::vector<std::size_t> families;
  Player player;
};

// Every down, short and long, at spots that lie dense near both goals.
std::vector<DriveState> states() {
  std::vector<DriveState> out;
  for (int down = 1; down <= 4; ++down)
    for (const int y : {1, 2, 3, 5, 7, 8, 10, 11, 14, 19, 20, 21, 34, 50, 75, 90, 97, 99})
      for (const int to_go : {1, 2, 3, 4, 6, 7, 10, 11, 18})
        if (to_go <= y) out.push_back({down, to_go, y});
  return out;
}

// Gains back into the own end zone are told together.
double at(const std::map<int, double>& gains, int y, int g) {
  double sum = 0;
  if (y - g < 100) {
    const auto found = gains.find(g);
    return found == gains.end() ? 0 : found->second;
  }
  for (const auto& [gain, p] : gains)
    if (y - gain >= 100) sum += p;
  return sum;
}

double worst_at(const drive::Table& table, std::size_t quality, const DriveState& state,
                const second::Outcomes& expected) {
  const drive::Plan& plan = *table.plan;
  const drive::ClassTable& outcomes = table.classes[quality];
  const std::size_t r = plan.row_of[drive::state_index(state)];
  const drive::Row& row = plan.rows[r];
  const drive::Slice& slice = plan.layout.of_row(r);
  std::map<int, double> keep, fumble;
  for (int i = 0; i < slice.count; ++i) {
    const int g = plan.first_gain + i;
    if (g >= state.yards_to_goal) break;
    keep[g] = outcomes.keep[slice.offset + static_cast<std::size_t>(i)];
    fumble[g] = outcomes.fumble[slice.offset + static_cast<std::size_t>(i)];
  }
  double worst = std::abs(outcomes.touchdown[r] - expected.touchdown);
  for (int g = state.yards_to_goal - 100; g < state.yards_to_goal; ++g) {
    const int y = state.yards_to_goal;
    worst = std::max({worst, std::abs(at(keep, y, g) - at(expected.keep, y, g)),
                      std::abs(at(fumble, y, g) - at(expected.fumble, y, g))});
  }
  const std::size_t first = row.context * expected.interception.size();
  for (std::size_t f = 0; f < expected.interception.size(); ++f)
    worst = std::max(worst, std::abs(outcomes.interception[first + f] - expected.interception[f]));
  return worst;
}

double total(const second::Outcomes& outcomes) {
  double sum = outcomes.touchdown;
  for (const auto& [g, p] : outcomes.keep) sum += p;
  for (const auto& [g, p] : outcomes.fumble) sum += p;
  for (const double p : outcomes.interception) sum += p;
  return sum;
}

void agree(const Field& field, std::size_t every) {
  const DriveModel model = compile_drives(field.player, field.scheme, field.families, field.setting,
                                          {std::vector<double>(100, 0.0), 0, 0, 0});
  double worst = 0;
  double off_one = 0;
  std::size_t place = 0;
  for (const DriveState& state : states())
    for (std::size_t k = 0; k < field.setting.quality.size(); ++k) {
      if (++place % every != 0) continue;
      const second::Outcomes expected =
          second::outcomes_of(field.setting, field.scheme, field.families, field.player,
                              field.setting.quality[k].shifts, state);
      off_one = std::max(off_one, std::abs(total(expected) - 1));
      worst = std::max(worst, worst_at(model.table(), k, state, expected));
    }
  CHECK(off_one < 1e-12);
  CHECK(worst < 1e-12);
}

Field shipped(const std::string& setting_name, const std::string& scheme_name) {
  const std::string root = CALLFIT_SOURCE_DIR;
  Setting setting = Files().setting(root + "/settings/" + setting_name + ".json");
  Scheme scheme = Files().scheme(root + "/schemes/" + scheme_name + ".json");
  std::vector<std::size_t> families = bind_scheme(scheme, setting).setting_family;
  Player player = PlayerDraws::of_population(setting, {11}, 1).player_at(0);
  return {std::move(setting), std::move(scheme), std::move(families), std::move(player)};
}

}  // namespace

TEST_CASE("the compiled table is the document's snap, in settings shaken at random") {
  const auto seed = GENERATE(1U, 2U, 3U, 4U);
  Setting setting = fixture::random_setting(seed);
  const Player player = PlayerDraws::of_population(setting, {seed}, 1).player_at(0);
  agree({std::move(setting), fixture::random_scheme(seed), fixture::families(), player}, 1);
}

TEST_CASE("the compiled table is the document's snap, in shipped settings and schemes") {
  const auto& [setting, scheme] =
      GENERATE(table<std::string, std::string>({{"college", "spread-option-run"},
                                                {"pro", "vertical-play-action"},
                                                {"high-school", "wide-zone-boot"},
                                                {"college", "pocket-and-draw"}}));
  INFO(setting << ' ' << scheme);
  agree(shipped(setting, scheme), 13);
}

TEST_CASE("the comparison sees a rate that is a thousandth off") {
  Field field = shipped("college", "balanced");
  const DriveModel model = compile_drives(field.player, field.scheme, field.families, field.setting,
                                          {std::vector<double>(100, 0.0), 0, 0, 0});
  for (PlayerFamily& family : field.player.families)
    for (auto& cell : family.cell) cell[static_cast<std::size_t>(Rate::completion)] += 0.001;
  const DriveState state{1, 10, 75};
  const second::Outcomes other =
      second::outcomes_of(field.setting, field.scheme, field.families, field.player,
                          field.setting.quality[0].shifts, state);
  CHECK(worst_at(model.table(), 0, state, other) > 1e-5);
}

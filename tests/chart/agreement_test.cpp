#include <callfit/chart/agreement.hpp>

#include <catch2/catch.hpp>

#include <cmath>

using namespace callfit;

namespace {

using Table = std::vector<std::vector<double>>;

double kappa_of(const Table& shares) {
  double observed = 0;
  double expected = 0;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    double row = 0;
    double column = 0;
    for (std::size_t j = 0; j < shares.size(); ++j) {
      row += shares[i][j];
      column += shares[j][i];
    }
    observed += shares[i][i];
    expected += row * column;
  }
  return (observed - expected) / (1 - expected);
}

/// Standard error by the delta method for a multinomial, gradient by central differences.
double delta_method_error(const Table& counts) {
  double total = 0;
  for (const auto& row : counts)
    for (const double n : row) total += n;
  Table shares = counts;
  for (auto& row : shares)
    for (double& p : row) p /= total;
  double mean = 0;
  double square = 0;
  constexpr double step = 1e-6;
  for (std::size_t i = 0; i < shares.size(); ++i)
    for (std::size_t j = 0; j < shares.size(); ++j) {
      Table up = shares;
      Table down = shares;
      up[i][j] += step;
      down[i][j] -= step;
      const double slope = (kappa_of(up) - kappa_of(down)) / (2 * step);
      mean += shares[i][j] * slope;
      square += shares[i][j] * slope * slope;
    }
  return std::sqrt((square - mean * mean) / total);
}

Snap snap(const char* game, int down, int to_go, int spot, Result result = Result::incomplete,
          int yards = 0) {
  Snap row;
  row.game = game;
  row.level = "college";
  row.family = "boot";
  row.down = down;
  row.to_go = to_go;
  row.yards_to_goal = spot;
  row.result = result;
  row.yards = yards;
  return row;
}

}  // namespace

TEST_CASE("Cohen's kappa on worked tables") {
  struct Case {
    Table table;
    double observed;
    double expected;
    double kappa;
  };
  // The first three by hand from the definition in Cohen (1960), Educational and Psychological
  // Measurement 20:37-46; the fourth is the table of 200 cases whose kappa is .492 there (from
  // memory).
  const std::vector<Case> cases{
      {{{20, 5}, {10, 15}}, 0.7, 0.5, 0.4},
      {{{45, 15}, {25, 15}}, 0.6, 0.54, 0.1304347826},
      {{{25, 35}, {5, 35}}, 0.6, 0.46, 0.2592592593},
      {{{88, 10, 2}, {14, 40, 6}, {18, 10, 12}}, 0.7, 0.41, 0.4915254237}};
  for (const Case& one : cases) {
    const auto kappa = cohen_kappa(one.table);
    REQUIRE(kappa);
    CHECK(kappa->observed == Approx(one.observed).epsilon(1e-9));
    CHECK(kappa->expected == Approx(one.expected).epsilon(1e-9));
    CHECK(kappa->value == Approx(one.kappa).epsilon(1e-9));
    CHECK(kappa->standard_error == Approx(delta_method_error(one.table)).epsilon(1e-6));
    CHECK(kappa->low < kappa->value);
    CHECK(kappa->high > kappa->value);
  }
}

// Fleiss, Statistical Methods for Rates and Proportions (1981), section 13.1: two diagnosticians,
// 100 patients, kappa .68 with standard error .087 (from memory).
TEST_CASE("the standard error of a textbook table") {
  const auto kappa = cohen_kappa({{75, 1, 4}, {5, 4, 1}, {0, 0, 10}});
  REQUIRE(kappa);
  CHECK(kappa->value == Approx(0.68).margin(0.005));
  CHECK(kappa->standard_error == Approx(0.087).margin(0.001));
}

TEST_CASE("kappa at its edges") {
  CHECK_FALSE(cohen_kappa({}));
  CHECK_FALSE(cohen_kappa({{7}}));
  const auto perfect = cohen_kappa({{5, 0}, {0, 5}});
  REQUIRE(perfect);
  CHECK(perfect->value == 1);
  CHECK(perfect->standard_error == 0);
  const auto opposed = cohen_kappa({{0, 5}, {5, 0}});
  REQUIRE(opposed);
  CHECK(opposed->value == -1);
}

TEST_CASE("rows are paired by game and order, over rows that one of the two lacks") {
  const Chart first{
      "a",
      {snap("G1", 1, 10, 75), snap("G1", 2, 10, 75), snap("G1", 3, 10, 75), snap("G2", 1, 10, 60)}};
  // The second person missed second down, saw the first spot a yard off, and has another game.
  const Chart second{
      "b",
      {snap("G1", 1, 10, 74), snap("G1", 3, 10, 75), snap("G3", 1, 10, 50), snap("G2", 1, 10, 60)}};
  const Pairing pairing = pair_snaps(first, second);
  REQUIRE(pairing.pairs.size() == 2);
  CHECK(pairing.pairs[0].first == 2);
  CHECK(pairing.pairs[0].second == 1);
  CHECK(pairing.pairs[1].first == 3);
  CHECK(pairing.pairs[1].second == 3);
  CHECK(pairing.only_first == std::vector<std::size_t>{0, 1});
  CHECK(pairing.only_second == std::vector<std::size_t>{0, 2});
}

TEST_CASE("a row between two matched ones is paired in turn") {
  const Chart first{"a", {snap("G1", 1, 10, 75), snap("G1", 2, 6, 71), snap("G1", 3, 6, 71)}};
  const Chart second{"b", {snap("G1", 1, 10, 75), snap("G1", 2, 7, 72), snap("G1", 3, 6, 71)}};
  const Pairing pairing = pair_snaps(first, second);
  REQUIRE(pairing.pairs.size() == 3);
  CHECK(pairing.pairs[1].first == 1);
  CHECK(pairing.pairs[1].second == 1);
  CHECK(pairing.only_first.empty());
}

TEST_CASE("ids pair rows in any order") {
  Chart first{"a", {snap("G1", 1, 10, 75), snap("G1", 2, 10, 75)}};
  Chart second{"b", {snap("G9", 2, 10, 75), snap("G9", 1, 10, 75), snap("G9", 3, 10, 75)}};
  first.snaps[0].snap_id = "one";
  first.snaps[1].snap_id = "two";
  second.snaps[0].snap_id = "two";
  second.snaps[1].snap_id = "one";
  second.snaps[2].snap_id = "three";
  const Pairing pairing = pair_snaps(first, second);
  REQUIRE(pairing.pairs.size() == 2);
  CHECK(pairing.pairs[0].second == 1);
  CHECK(pairing.pairs[1].second == 0);
  CHECK(pairing.only_second == std::vector<std::size_t>{2});
}

TEST_CASE("agreement counts blanks apart, lists what differs, and says what it does to rates") {
  Chart first{"a", {}};
  Chart second{"b", {}};
  for (int i = 0; i < 10; ++i) {
    first.snaps.push_back(snap("G1", 1, 10, 90 - i, Result::complete, 8));
    second.snaps.push_back(snap("G1", 1, 10, 90 - i, Result::complete, 8));
    first.snaps.back().pressure = i < 5;
    second.snaps.back().pressure = i < 4;
  }
  first.snaps[9].pressure = {};
  second.snaps[8].result = Result::incomplete;
  second.snaps[8].yards = 0;
  first.snaps[0].air_yards = 9;
  second.snaps[0].air_yards = 11;

  const Agreement result = agreement(first, second);
  const auto column = [&](ChartColumn wanted) {
    for (const ColumnAgreement& one : result.columns)
      if (one.column == wanted) return one;
    throw std::logic_error("column not compared");
  };
  CHECK(column(ChartColumn::pressure).both == 9);
  CHECK(column(ChartColumn::pressure).only_second == 1);
  CHECK(column(ChartColumn::pressure).same == 8);
  // Nine snaps, yes/no: both yes 4, first only 1, both no 4.
  CHECK(column(ChartColumn::pressure).kappa->value ==
        Approx(cohen_kappa({{4, 1}, {0, 4}})->value).epsilon(1e-12));
  CHECK(column(ChartColumn::air_yards).mean_difference == 2);
  CHECK(column(ChartColumn::yards).mean_difference == Approx(0.8));
  REQUIRE(result.disagreements.size() == 4);
  CHECK(result.disagreements[0].column == ChartColumn::air_yards);
  CHECK(result.disagreements[1].pair.first == 4);
  CHECK(result.disagreements[1].first == "yes");
  CHECK(result.disagreements[1].second == "no");
  for (const RateEffect& effect : result.effects)
    if (effect.rate == Rate::completion) {
      CHECK(effect.first_made == 10);
      CHECK(effect.second_made == 9);
      CHECK(effect.second_of == 10);
    }
}

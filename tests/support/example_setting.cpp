#include "example_setting.hpp"

#include <cmath>

namespace callfit::testing {
namespace {

void put(FamilyPopulation& family, Rate rate, double mean, double spread) {
  family.rates[static_cast<std::size_t>(rate)] = RatePopulation{mean, spread};
}

// Two-sided geometric around `centre`: a plain unimodal shape with heavy enough tails.
YardPmf bell(int first, int last, double centre, double decay) {
  YardPmf pmf{first, {}};
  double total = 0;
  for (int g = first; g <= last; ++g) {
    pmf.p.push_back(std::pow(decay, std::abs(g - centre)));
    total += pmf.p.back();
  }
  for (double& p : pmf.p) p /= total;
  return pmf;
}

GainPopulation gains(const YardPmf& shape, std::vector<int> bins, double concentration) {
  return GainPopulation{shape, std::move(bins), concentration};
}

FamilyPopulation pass() {
  FamilyPopulation family;
  family.id = "throw";
  family.kind = FamilyKind::pass;
  put(family, Rate::sack, 0.07, 0.02);
  put(family, Rate::scramble, 0.05, 0.025);
  put(family, Rate::completion, 0.62, 0.05);
  put(family, Rate::interception, 0.025, 0.01);
  put(family, Rate::on_time, 0.75, 0.06);
  put(family, Rate::catchable, 0.78, 0.05);
  put(family, Rate::pressured, 0.25, 0.05);
  put(family, Rate::success, 0.46, 0.04);
  put(family, Rate::explosive, 0.09, 0.025);
  put(family, Rate::fumble, 0.01, 0.004);
  put(family, Rate::evaded, 0.2, 0.05);
  family.depth = gains(bell(-5, 45, 7, 0.88), {-5, 0, 5, 10, 15, 20, 30}, 60);
  family.yac = gains(bell(0, 60, 3, 0.82), {0, 1, 3, 6, 10, 20}, 80);
  family.interception_depth = bell(0, 50, 14, 0.9);
  return family;
}

FamilyPopulation run(const char* id, FamilyKind kind) {
  FamilyPopulation family;
  family.id = id;
  family.kind = kind;
  put(family, Rate::success, 0.45, 0.05);
  put(family, Rate::explosive, 0.1, 0.03);
  put(family, Rate::fumble, 0.012, 0.005);
  put(family, Rate::evaded, 0.3, 0.08);
  family.run = gains(bell(-8, 70, 3, 0.82), {-8, 0, 2, 4, 7, 12, 20}, 90);
  return family;
}

void put_cell(Setting& setting, Cell cell, double completion_shift, double sack_shift,
              double kappa) {
  CellPopulation population;
  population.cell = cell;
  population.who.kinds = {FamilyKind::pass};
  population.rates[static_cast<std::size_t>(Rate::completion)] = CellRate{completion_shift, kappa};
  population.rates[static_cast<std::size_t>(Rate::sack)] = CellRate{sack_shift, 2 * kappa};
  setting.cells.push_back(population);
}

void put_level(Setting& setting, const char* id, double weight, double completion_shift) {
  Level level;
  level.id = id;
  level.weight = weight;
  level.shift[static_cast<std::size_t>(Rate::completion)] = completion_shift;
  setting.levels.push_back(level);
}

}  // namespace

Setting example_setting(bool with_cells) {
  Setting setting;
  setting.id = "example";
  setting.level = "pro";
  setting.families = {pass(), run("keep", FamilyKind::qb_run), run("give", FamilyKind::handoff)};
  setting.scramble_gain = gains(bell(-5, 60, 5, 0.86), {-5, 0, 4, 8, 14}, 50);
  setting.sack_gain = gains(bell(-20, 0, -6, 0.8), {-20, -10, -7, -4}, 70);
  put_level(setting, "pro", 1, 0);
  put_level(setting, "college", 1, 0.3);
  put_level(setting, "high_school", 0.4, 0.6);
  setting.shells = {{SituationRule{}, {0.5, 0.4, 0.1}}};
  if (!with_cells) return setting;
  put_cell(setting, Cell::one_high, 0.05, 0.02, 80);
  put_cell(setting, Cell::two_high, -0.1, -0.05, 80);
  put_cell(setting, Cell::none_high, -0.05, 0.2, 60);
  put_cell(setting, Cell::moving, -0.3, 0.1, 60);
  put_cell(setting, Cell::pressure, -0.7, 1.2, 40);
  put_cell(setting, Cell::deep_throw, -1.0, 0, 50);
  return setting;
}

}  // namespace callfit::testing

#include <ask/sample.hpp>
#include <callfit/stats/logit.hpp>
#include <profile/cells.hpp>

namespace callfit::ask {
namespace {

enum Kind { of_rate, of_cell, of_bin };

std::vector<double> shifted_column(DrawColumn column, double by) {
  std::vector<double> out(column.begin(), column.end());
  for (double& value : out) value = shifted(value, by);
  return out;
}

}  // namespace

Sample::Sample(std::shared_ptr<const PlayerDraws> draws, std::shared_ptr<const Setting> population,
               PlayerShift shift)
    : draws_(std::move(draws)), population_(std::move(population)), shift_(std::move(shift)) {}

const FamilyShift* Sample::shift_of(std::size_t family) const {
  return family < shift_.families.size() ? &shift_.families[family] : nullptr;
}

DrawColumn Sample::rate(std::size_t family, Rate rate) const {
  const FamilyShift* shift = shift_of(family);
  const auto r = static_cast<std::size_t>(rate);
  const DrawColumn own = draws_->rate(family, rate);
  if (shift == nullptr || shift->rate[r] == 0) return own;
  const auto [entry, is_new] = moved_.try_emplace({of_rate, family, r, 0});
  if (is_new) entry->second = shifted_column(own, shift->rate[r]);
  return entry->second;
}

// A rate's cells move with it; shells are balanced again, then each moves by what it has of its
// own.
void Sample::move_cells(std::size_t family, Rate rate) const {
  const FamilyShift& shift = *shift_of(family);
  const auto r = static_cast<std::size_t>(rate);
  const CellTable table = population_->cell_table(population_->families[family]);
  const bool by_shell = differs_by_shell(table, r) && shift.rate[r] != 0;
  for (std::size_t c = 0; c < cell_count; ++c)
    moved_[{of_cell, family, r, c}] =
        shifted_column(draws_->cell(family, static_cast<Cell>(c), rate), shift.rate[r]);
  if (by_shell) {
    const ShellMix mix = shell_mix(*population_);
    const DrawColumn wanted = this->rate(family, rate);
    PlayerFamily one;
    for (std::size_t i = 0; i < size(); ++i) {
      one.rate[r] = wanted[i];
      for (std::size_t s = 0; s < shell_count; ++s)
        one.cell[s][r] = moved_[{of_cell, family, r, s}][i];
      balance_shells(one, r, mix);
      for (std::size_t s = 0; s < shell_count; ++s)
        moved_[{of_cell, family, r, s}][i] = one.cell[s][r];
    }
  }
  for (std::size_t c = 0; c < cell_count; ++c)
    if (shift.cell[c][r] != 0)
      for (double& value : moved_[{of_cell, family, r, c}])
        value = shifted(value, shift.cell[c][r]);
}

DrawColumn Sample::cell(std::size_t family, Cell cell, Rate rate) const {
  const FamilyShift* shift = shift_of(family);
  const auto r = static_cast<std::size_t>(rate);
  bool moves = shift != nullptr && shift->rate[r] != 0;
  for (std::size_t c = 0; shift != nullptr && c < cell_count; ++c)
    moves = moves || shift->cell[c][r] != 0;
  if (!moves) return draws_->cell(family, cell, rate);
  const Key key{of_cell, family, r, static_cast<std::size_t>(cell)};
  if (!moved_.contains(key)) move_cells(family, rate);
  return moved_.at(key);
}

void Sample::move_bins(GainPart part, std::size_t family, double by) const {
  const auto& own = draws_->bins(part, family);
  const auto p = static_cast<std::size_t>(part);
  std::vector<std::vector<double>*> out;
  for (std::size_t b = 0; b < own.size(); ++b) {
    auto& column = moved_[{of_bin, family, p, b}];
    column.resize(size());
    out.push_back(&column);
  }
  std::vector<double> one(own.size());
  for (std::size_t i = 0; i < size(); ++i) {
    for (std::size_t b = 0; b < own.size(); ++b) one[b] = own[b][i];
    const YardPmf moved = shifted(YardPmf{0, one}, by);
    for (std::size_t b = 0; b < own.size(); ++b) (*out[b])[i] = moved.p[b];
  }
}

std::vector<DrawColumn> Sample::bins(GainPart part, std::size_t family) const {
  const bool shared = is_shared(part);
  if (shared) family = 0;
  const FamilyShift* shift = shift_of(family);
  double by = part == GainPart::scramble ? shift_.scramble : shift_.sack;
  if (!shared) by = shift == nullptr ? 0 : shift->gain[static_cast<std::size_t>(part)];
  const auto& own = draws_->bins(part, family);
  if (by == 0 || own.empty()) return own;
  const auto p = static_cast<std::size_t>(part);
  if (!moved_.contains({of_bin, family, p, 0})) move_bins(part, family, by);
  std::vector<DrawColumn> out;
  for (std::size_t b = 0; b < own.size(); ++b) out.emplace_back(moved_.at({of_bin, family, p, b}));
  return out;
}

std::vector<double> Sample::gain(GainPart part, std::size_t family) const {
  const GainPopulation* population = population_of(*population_, family, part);
  std::vector<double> out(size(), 0.0);
  if (population == nullptr) return out;
  const std::vector<double> yards = population->bin_means();
  const std::vector<DrawColumn> own = bins(part, family);
  for (std::size_t b = 0; b < own.size(); ++b)
    for (std::size_t i = 0; i < out.size(); ++i) out[i] += yards[b] * own[b][i];
  return out;
}

std::vector<double> Sample::measure(std::size_t family, Measure measure,
                                    const std::optional<Cell>& cell) const {
  if (const auto r = as_rate(measure)) {
    const DrawColumn column = cell ? this->cell(family, *cell, *r) : rate(family, *r);
    return {column.begin(), column.end()};
  }
  const GainPart part = measure == Measure::yards_after_catch ? GainPart::yac : GainPart::run;
  const GainPopulation* population = population_of(*population_, family, part);
  const double by = cell && population != nullptr
                        ? population_->cell_gain_shift(population_->families[family], *cell, part)
                        : 0;
  if (by == 0) return gain(part, family);
  std::vector<double> out(size(), 0.0);
  const std::vector<DrawColumn> own = bins(part, family);
  std::vector<double> one(own.size());
  for (std::size_t i = 0; i < out.size(); ++i) {
    for (std::size_t b = 0; b < own.size(); ++b) one[b] = own[b][i];
    out[i] = mean(shifted(gain_pmf(*population, one), by));
  }
  return out;
}

Player Sample::player_at(std::size_t i) const {
  const Player own = draws_->player_at(i, PlayerParts::played);
  return shift_.families.empty() ? own : moved(own, shift_, *population_);
}

}  // namespace callfit::ask

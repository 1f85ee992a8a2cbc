// The draws of one quarterback as a question has him: those of his profile, or the same ones moved.
#pragma once

#include <ask/player_shift.hpp>
#include <callfit/profile/draws.hpp>
#include <callfit/setting/setting.hpp>

#include <map>
#include <memory>
#include <optional>
#include <tuple>
#include <vector>

namespace callfit::ask {

/// Columns like those of PlayerDraws, each moved when first asked for. Columns stay valid as long
/// as the sample lives.
class Sample {
 public:
  Sample(std::shared_ptr<const PlayerDraws> draws, std::shared_ptr<const Setting> population,
         PlayerShift shift = {});

  std::size_t size() const { return draws_->size(); }
  const Setting& population() const { return *population_; }
  const std::shared_ptr<const PlayerDraws>& unmoved() const { return draws_; }

  DrawColumn rate(std::size_t family, Rate rate) const;
  DrawColumn cell(std::size_t family, Cell cell, Rate rate) const;
  std::vector<DrawColumn> bins(GainPart part, std::size_t family) const;

  /// The mean gain in every draw; 0 where the population has none.
  std::vector<double> gain(GainPart part, std::size_t family) const;

  /// The measure in every draw, as measure_of() has it.
  std::vector<double> measure(std::size_t family, Measure measure,
                              const std::optional<Cell>& cell) const;

  /// Draw i, with everything that drives play with. Safe between threads after fill().
  Player player_at(std::size_t i) const;
  void fill() const { draws_->fill(PlayerParts::played); }

 private:
  using Key = std::tuple<int, std::size_t, std::size_t, std::size_t>;

  const FamilyShift* shift_of(std::size_t family) const;
  void move_cells(std::size_t family, Rate rate) const;
  void move_bins(GainPart part, std::size_t family, double by) const;

  std::shared_ptr<const PlayerDraws> draws_;
  std::shared_ptr<const Setting> population_;
  PlayerShift shift_;
  mutable std::map<Key, std::vector<double>> moved_;
};

}  // namespace callfit::ask

// A number followed along the tape's weight.
#pragma once

#include <ask/memory.hpp>
#include <ask/tape_stages.hpp>

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace callfit::ask {

/// One cell's rate.
struct CellPlace {
  std::size_t family = 0;
  Rate rate = Rate::completion;
  Cell cell = Cell::one_high;

  auto operator<=>(const CellPlace&) const =
      default;  // NOLINT(modernize-use-nullptr): clang 14 errs
};

/// Indices of quantities are those of the setting's population.
struct Tracked {
  std::function<double(const TapeStage&)> centre;
  /// What moves as the centre does, to first order, draw by draw.
  std::function<Column(const TapeStage&, const Sample&)> draws;
  std::vector<std::size_t> quantities;  ///< that it hangs on
  bool in_pairs = false;                ///< whether quantities of one family act together
  std::vector<CellPlace> cells;         ///< whose own counts it hangs on
  std::size_t solves = 0;               ///< exact solves that following it along the stages takes
  /// Mean derivative by the log-odds of a cell; where empty it is taken from the draws.
  std::function<double(const TapeStage&, const Sample&, const CellPlace&)> by_cell;
};

/// Throughout `standing` must outlive what comes back, and so must the memory.
Tracked tracked_rate(const Standing& standing, std::size_t family, Rate rate);
Tracked tracked_cell(const Standing& standing, const CellPlace& place);
Tracked tracked_gain(const Standing& standing, std::size_t family, GainPart part);
/// D^2, or only those demands' parts of it whose path is `demand`.
Tracked tracked_distance(const Standing& standing, const std::string& demand = "");
Tracked tracked_place(Memory& memory, Standing& standing);
/// Per game.
Tracked tracked_points(const Standing& standing, bool net);

}  // namespace callfit::ask

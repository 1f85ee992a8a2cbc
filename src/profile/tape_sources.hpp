// Which of the evidence's sources a snap is of, by the moves that the user told.
#pragma once

#include <callfit/chart/snap.hpp>
#include <callfit/population/evidence.hpp>
#include <callfit/profile/around.hpp>
#include <callfit/setting/setting.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Of a setting with a population. What a new level does is the level's own (its shift and its
/// spread), so that such a move is no source beside it.
class TapeSources {
 public:
  TapeSources(const Setting& setting, const std::vector<Move>& moves);

  const std::vector<TapeSource>& sources() const { return sources_; }
  /// Nothing for the place that is asked about.
  std::optional<std::size_t> of(const Snap& snap, const std::string& chart) const;
  std::optional<std::size_t> of(const SeasonTotals& season) const;

 private:
  const std::vector<Move>& moves_;
  std::vector<std::optional<std::size_t>> source_of_move_;
  std::vector<TapeSource> sources_;
};

/// What is wrong with a move, by its place in the list.
struct MoveFault {
  std::size_t move = 0;
  std::string what, mend;
};

/// Moves of which the tape has no snap, whose snaps an earlier move takes, and whose change does
/// not go with their snaps' level.
std::vector<MoveFault> faults_of(const std::vector<Move>& moves, const std::vector<Chart>& charts,
                                 const Setting& setting);

}  // namespace callfit

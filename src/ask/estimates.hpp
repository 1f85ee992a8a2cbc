// Estimates of single rates and means as numbers.
#pragma once

#include <ask/standing.hpp>
#include <callfit/ask/number.hpp>
#include <callfit/ask/verdict.hpp>
#include <callfit/profile/profile.hpp>

#include <optional>

namespace callfit::ask {

/// Of a measure of a family of the setting: exact where it is a rate's own Beta (moved with the
/// question's quarterback), else from `column`, its draws; an empty one is drawn.
Number estimate_of(const Standing& standing, std::size_t family, Measure measure,
                   const std::optional<Cell>& cell, const Column& column);

/// Odds that the measure lies above `level`, exact or from the draws likewise.
Verdict odds_above(const Standing& standing, std::size_t family, Measure measure,
                   const std::optional<Cell>& cell, const Column& column, double level);

/// The rate's own estimate in the profile; nullptr for cells, yards and rates it does not have.
const RateEstimate* rate_estimate(const Profile& profile, std::size_t family, Measure measure,
                                  const std::optional<Cell>& cell);

/// Charted counts behind the measure, of a cell's own snaps where it is one; zeros for yards.
RateCounts counts_behind(const Profile& profile, std::size_t family, Measure measure,
                         const std::optional<Cell>& cell);

}  // namespace callfit::ask

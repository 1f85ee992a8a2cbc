// Rows that can have happened but rarely do: slips of the person who charted.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/chart/snap.hpp>

namespace callfit {

/// Warnings about a chart: the same snap twice, a down or distance that does not follow from the
/// row before, a ball that jumps inside a series, a first down with an unusual distance, quarters
/// that run backwards, a game in two places or at two levels, a catch charted as not catchable.
/// Takes rows of a game in order of play. After third and fourth downs, turnovers and scores
/// anything may follow, since kicks and the other team's drives are not charted.
Findings odd_rows(const Chart& chart);

}  // namespace callfit

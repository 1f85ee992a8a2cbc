// Text about the tape itself: what to chart next, how the season moves, what population charts
// show.
#pragma once

#include <callfit/ask/charting.hpp>
#include <callfit/ask/trend.hpp>
#include <callfit/profile/population_fit.hpp>

#include <string>
#include <vector>

namespace callfit {

/// One sentence ("Chart deep outside next"), then the table of families.
std::string charting_text(const ChartingAdvice& advice, const Profile& profile,
                          const Matchup& matchup);

/// One line a game: fit, net points and each followed number with its interval; then whether the
/// first answer held.
std::string trend_text(const std::vector<TrendStep>& steps, const std::vector<Followed>& followed,
                       const Setting& setting);

/// Mean and spread of every fitted rate with intervals, beside the setting's.
std::string population_text(const PopulationFit& fit, const Setting& setting);

}  // namespace callfit

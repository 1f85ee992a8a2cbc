// What a man's first games of a season say of his points in the rest of it.
#pragma once

#include <validate/forecast.hpp>

namespace callfit {

/// Seasons of more than eight games with 100 dropbacks in the rest. Nobody counted points by game:
/// those of the rest are the season's less what the model makes of the first games and the season's
/// handoffs, drives taken in proportion to dropbacks. Nothing is foretold of handoffs, which are
/// known by season only.
RestOfSeason rest_after_eight(const std::vector<PlayedSeason>& seasons,
                              const Forecaster& forecaster, const PointsGround& ground);

}  // namespace callfit

// A quarterback as plain numbers made from what was counted of him in a season.
#pragma once

#include <callfit/validate/season_points.hpp>
#include <validate/league.hpp>
#include <validate/points_ground.hpp>

#include <array>

namespace callfit {

struct SeasonCounts {
  std::array<MemberCounts, game_rate_count> rates{};
  std::array<YardsGained, throw_depth_count> after_catch{};
  YardsGained scrambles;
  MemberCounts handoff_success;
  YardsGained handoffs;
};

SeasonCounts counts_of(const Games& games, const QuarterbackSeason& season);
SeasonCounts& operator+=(SeasonCounts& sum, const SeasonCounts& more);

/// Parts of his season that make him another than the average quarterback.
using Parts = std::array<bool, points_part_count>;
Parts all_parts();
Parts only(PointsPart part);

/// The setting's average quarterback, moved by what his season's plain rates and gains differ from
/// those of the league: rates by their log-odds, in every family that hangs on the same trait; mean
/// yards after the catch, by depth, and of scrambles by as many yards. Of handoffs the chance to
/// gain up to nine yards moves by the log-odds of success, that of more such that mean yards come
/// out. Each count has one mean event of the league added.
Player season_player(const PointsGround& ground, const SeasonCounts& his,
                     const SeasonCounts& league, const Parts& parts);

}  // namespace callfit

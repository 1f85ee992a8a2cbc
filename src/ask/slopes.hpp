// Derivatives by knobs out of derivatives by plain numbers.
#pragma once

#include <ask/question.hpp>
#include <callfit/drive/adjoint.hpp>

namespace callfit::ask {

/// Per unit of the family's rate, its cells moving along (see moved()).
double rate_slope(const DriveGradient& gradient, const Player& player, const Setting& setting,
                  std::size_t family, Rate rate);

/// Per unit of the rate against one shell alone.
double shell_slope(const DriveGradient& gradient, std::size_t family, Rate rate, std::size_t shell);

/// Per yard of the mean gain, moved by proportional odds; 0 where the family lacks the part.
double gain_slope(const DriveGradient& gradient, const Player& player, const Setting& setting,
                  std::size_t family, GainPart part);

/// Per unit of the share of a family in one situation, the others giving way in proportion;
/// against one shell, or (shell_count) against all.
double call_slope(const DriveGradient& gradient, const Scheme& scheme, std::size_t situation,
                  std::size_t family, std::size_t shell);

/// Standard deviation of the mean gain between players: the Dirichlet's.
double gain_spread(const GainPopulation& population);

/// Per unit of what a demand measures, in a family of the setting; 0 where drives do not use it.
double measure_slope(const DriveGradient& gradient, const Player& player, const Setting& setting,
                     std::size_t family, const Demand& demand);

/// Gives every demand the net points per drive that one spread of its measure brings the player,
/// call shares counted within; 0 for measures that drives do not use, or where more scores less.
/// `ground`: the setting whose population players are pulled toward.
void weigh_by_points(Scheme& scheme, const Matchup& matchup, const Setting& ground,
                     const Player& player, const DriveGradient& net_points);

}  // namespace callfit::ask

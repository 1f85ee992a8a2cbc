// From a player's rates to what a play does: the one place where that is said.
#pragma once

#include <drive/plan.hpp>

namespace callfit::drive {

/// Probabilities of what happens on one play; sack + scramble + complete + incomplete + intercepted
/// + run = 1.
struct Chances {
  double sack = 0, scramble = 0, complete = 0, incomplete = 0, intercepted = 0, run = 0;
  /// Share of those outcomes that end in a lost fumble (short of the goal line).
  double sack_fumble = 0, scramble_fumble = 0, completion_fumble = 0, run_fumble = 0;
};

/// The player's own rate in the play, without the play's shift.
double own_rate(const Play& play, const PlayerFamily& own, Rate rate);

/// By what odds more the play is fumbled away than the population's.
double fumble_odds(const Play& play, const PlayerFamily& own, const FamilyPopulation& population);

Chances chances_of(const Play& play, const Player& player, const Setting& setting);

}  // namespace callfit::drive

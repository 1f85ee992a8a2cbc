// How often a drive comes through each state: the transpose of the exact engine.
#pragma once

#include <drive/sweep.hpp>

#include <vector>

namespace callfit::drive {

/// Expected number of times that a drive of one class stands at each state before a snap, from
/// shares of starting yards_to_goal: x = start + A^T x, with A the engine's transitions. Drives are
/// pushed forward until less than 1e-14 of them is left. By state_index. Drives that come to
/// `stop_inside` yards to the goal or nearer are let go there, counted at the state they came to.
std::vector<double> visits_of(const Plan& plan, const ClassTable& table,
                              const FourthDownPlan& policy, const std::vector<double>& start_share,
                              int stop_inside = 0);

/// Expected plays (no penalty, no kick) at each state, from its visits.
double plays_at(const Plan& plan, const FourthDownPlan& policy, std::size_t state, double visits);

/// Expected plays by row (index into Plan::rows), from the visits of every state.
std::vector<double> plays_by_row(const Plan& plan, const FourthDownPlan& policy,
                                 const std::vector<double>& visits);

}  // namespace callfit::drive

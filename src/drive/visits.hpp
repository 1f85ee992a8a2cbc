// How often a drive comes through each state: the transpose of the exact engine.
#pragma once

#include <callfit/drive/adjoint.hpp>
#include <drive/sweep.hpp>

#include <vector>

namespace callfit::drive {

struct VisitOptions {
  /// Drives that come to `stop_inside` yards to the goal or nearer are let go there, counted at the
  /// state they came to.
  int stop_inside = 0;
  /// Drives are pushed forward until no more than this share is left; on the way about as many at
  /// most are dropped.
  double left = counted_to;
};

/// Expected number of times that a drive of each class stands at each state before a snap, from
/// shares of starting yards_to_goal: x = start + A^T x, with A the engine's transitions. By class
/// and state_index; the same whatever registers the processor has.
std::vector<std::vector<double>> visits_of(const Table& table,
                                           const std::vector<FourthDownPlan>& policies,
                                           const std::vector<double>& start_share,
                                           const VisitOptions& options = {});
/// The same from one state.
std::vector<std::vector<double>> visits_of(const Table& table,
                                           const std::vector<FourthDownPlan>& policies,
                                           const DriveState& start);

/// Expected plays (no penalty, no kick) at each state, from its visits.
double plays_at(const Plan& plan, const FourthDownPlan& policy, std::size_t state, double visits);

/// Expected plays by row (index into Plan::rows), from the visits of every state.
std::vector<double> plays_by_row(const Plan& plan, const FourthDownPlan& policy,
                                 const std::vector<double>& visits);

}  // namespace callfit::drive

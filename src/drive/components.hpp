// The gain distributions that a player's plays draw from.
#pragma once

#include <drive/plan.hpp>

#include <map>
#include <utility>
#include <vector>

namespace callfit::drive {

/// Depth plus yards after the catch where no end zone is near: gains up to the component's top.
YardPmf sum_of(const YardPmf& depth, const YardPmf& after_catch, int top);

class Components {
 public:
  /// `wanted`: of the plan; what is not wanted has no gains.
  Components(const Plan& plan, const Player& player, const Parts& wanted);

  /// By Plan::gains.
  const YardPmf& shifted_gain(std::size_t gain) const { return shifted_[gain]; }
  /// The same before its shift.
  const YardPmf& source(std::size_t gain) const { return *source_[gain]; }

  /// Share of throws of a depth (by Plan::gains) that come down before the end zone's back line;
  /// `longest` is the longest of those.
  struct Reach {
    int longest = 0;
    double share = 0;
  };
  Reach reach(std::size_t depth, int yards_to_goal) const;
  /// Whether the end zone or its back line changes completions of this component at a spot.
  bool thrown_to_end_zone(std::size_t component, int yards_to_goal) const;

  /// Gains in the open field; probabilities of gains beyond the component's top are left out.
  const YardPmf& gains(std::size_t component) const { return gains_[component]; }

  /// Of gains from `first` on, the last a yard short of the goal: how much likelier each is at a
  /// spot near the goal than in the open field, [start, start + count) of a pool. No count: no
  /// change.
  struct Change {
    int first = 0;
    std::size_t start = 0, count = 0;
    bool catchable = true;  ///< false: no throw is short enough, nothing can be completed
  };
  /// Appends one to the pool. Near the goal throws are cut short by the back line (depth <= y +
  /// end_zone_depth - 1; the remaining depths scaled up to 1) or caught in the end zone, and of
  /// gains that just reach the goal line spotted_at_goal() are spotted on the 1. Where nothing is
  /// catchable all gains go.
  Change change_near_goal(std::size_t component, int yards_to_goal,
                          std::vector<double>& pool) const;

 private:
  double just_reaching_goal(std::size_t component, int yards_to_goal) const;

  const Plan& plan_;
  std::map<std::pair<GainPart, std::size_t>, YardPmf> sources_;
  std::vector<const YardPmf*> source_;      // by Plan::gains
  std::vector<YardPmf> shifted_;            // by Plan::gains
  std::vector<std::vector<double>> up_to_;  // by Plan::gains: sums of a depth's probabilities
  std::vector<YardPmf> gains_;              // by Plan::components
};

}  // namespace callfit::drive

// The reverse of Components: derivatives by gains back to the player's bins.
#pragma once

#include <callfit/drive/adjoint.hpp>
#include <drive/components.hpp>

#include <span>
#include <vector>

namespace callfit::drive {

/// Collects derivatives by the gains of components, then hands them on to the bins.
class ComponentsGradient {
 public:
  ComponentsGradient(const Plan& plan, const Player& player, const Components& components);

  /// A context adds weight * gains(component) to a table whose derivatives are `by` (starting at
  /// `first_gain`). Returns the derivative by the weight.
  double add_open(std::size_t component, double weight, std::span<const double> by);

  /// The reverse of Components::add_change_near_goal(), with the same cases.
  double add_near_goal(std::size_t component, int yards_to_goal, double weight,
                       std::span<const double> by);

  /// Whether the depths of the component can reach the end zone's back line or beyond from there
  /// and none falls short of it: nothing can be completed.
  bool uncatchable(std::size_t component, int yards_to_goal) const;

  void add_to_bins(DriveGradient& out) const;

 private:
  double add_missed(std::size_t component, double weight, std::span<const double> by, int last);
  void add_sums(std::vector<std::vector<double>>& by_shifted) const;

  const Plan& plan_;
  const Player& player_;
  const Components& components_;
  std::vector<std::vector<double>> by_gains_;    // [component][gain - first of its gains]
  std::vector<std::vector<double>> by_shifted_;  // [Plan::gains][gain - first]
};

}  // namespace callfit::drive

// The reverse of Components: derivatives by gains back to the player's bins.
#pragma once

#include <callfit/drive/adjoint.hpp>
#include <drive/components.hpp>
#include <drive/table_gradient.hpp>

#include <array>
#include <vector>

namespace callfit::drive {

/// How likely a component's gains are in one context, with the ball kept and fumbled away.
struct PartWeight {
  double keep = 0, fumble = 0;
};

/// Derivatives by a PartWeight: keep (points, net), fumble (points, net).
using ByWeight = std::array<double, 4>;

/// Collects derivatives by the gains of components, then hands them on to the bins.
class ComponentsGradient {
 public:
  ComponentsGradient(const Plan& plan, const Components& components);

  /// A context whose table has weight * gains(component) added, and derivatives `by` (`count` from
  /// first_gain on). Returns the derivatives by the weight.
  ByWeight add_open(std::size_t component, const PartWeight& weight, const ByWeight* by, int count);

  /// The same for Components::change_near_goal() at one spot, for all contexts in turn. One at
  /// a time.
  class NearGoal {
   public:
    NearGoal(ComponentsGradient& of, std::size_t component, int yards_to_goal);
    /// `by` holds derivatives from first_gain to yards_to_goal - 1.
    ByWeight add(const PartWeight& weight, const ByWeight* by);
    /// Hands what was collected on.
    void finish();

   private:
    void finish_caught(const Components::Reach& reach, Pair kept);

    ComponentsGradient& of_;
    std::size_t component_;
    int spot_;
    Components::Change change_;     // per unit of weight, in pool_
    std::size_t start_;             // of its gains, from first_gain
    std::vector<Pair>& by_change_;  // by gain - first_gain
  };

  void add_to_bins(std::array<DriveGradient*, 2> out) const;

 private:
  Components::Change change_of(std::size_t component, int yards_to_goal);
  void add_reaches(std::vector<std::vector<Pair>>& by_shifted) const;
  void add_sums(std::vector<std::vector<Pair>>& by_shifted) const;

  const Plan& plan_;
  const Components& components_;
  std::vector<std::vector<Pair>> by_gains_;    // [component][gain - first of its gains]
  std::vector<std::vector<Pair>> by_shifted_;  // [Plan::gains][gain - first]
  std::vector<std::vector<Pair>> by_reach_;    // likewise: by the share up to a depth
  std::vector<double> pool_;                   // NearGoal's, kept for the next one
  std::vector<Pair> by_change_;                // likewise
};

}  // namespace callfit::drive

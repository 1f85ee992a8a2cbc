// The compiled outcome table of one player in a plan; both engines play from it.
#pragma once

#include <drive/plan.hpp>

#include <memory>
#include <vector>

namespace callfit::drive {

/// Outcomes of the plays of one quality class. For row r with slice s, at y yards to the goal, a
/// play (no penalty) that starts there
///   keeps the ball after a gain of g < y yards with probability keep[s.offset + g - first_gain],
///   loses it to a fumble after such a gain with fumble[same index],
///   is intercepted with the sum over families of interception[context * families + f], at the
///   depths of that family's interceptions,
///   and scores a touchdown with touchdown[r]. These sum to 1.
struct ClassTable {
  std::vector<double> keep, fumble;
  std::vector<double> interception;
  std::vector<double> touchdown;
};

struct Table {
  std::shared_ptr<const Plan> plan;
  std::vector<ClassTable> classes;

  std::size_t families() const { return plan->setting.families.size(); }
};

Table compile(std::shared_ptr<const Plan> plan, const Player& player);

}  // namespace callfit::drive

// The average offence that real quarterbacks are put into, and what their numbers are worth to it.
#pragma once

#include <ask/player_shift.hpp>
#include <ask/terms.hpp>
#include <callfit/ask/matchup.hpp>
#include <profile/joint.hpp>

#include <vector>

namespace callfit {

class PointsGround {
 public:
  /// Throws InputError as bind_scheme() does.
  PointsGround(const Setting& setting, const Scheme& average_scheme);

  const Setting& setting() const { return matchup_.setting; }
  const Population& population() const { return *setting().population; }
  const JointPlaces& places() const { return places_; }
  const Player& average() const { return average_; }

  /// Points per drive beyond the average quarterback's: exact, and to first order in his numbers.
  double points(const Player& player) const;
  double first_order_points(const Player& player) const;
  /// Points of a drive from first and ten at so many yards to goal, of the average quarterback;
  /// between whole yards on the line between them.
  double points_from(double yards_to_goal) const;
  /// Of what one drive of the average offence scores.
  double variance_of_drive() const { return variance_; }

 private:
  Matchup matchup_;
  JointPlaces places_;
  Player average_;
  PointValues values_;
  double level_ = 0, variance_ = 0;
  std::vector<ask::Term> terms_;
};

}  // namespace callfit

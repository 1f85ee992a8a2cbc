// Points of every draw of a quarterback in one matchup, for the price of a few exact solves.
#pragma once

#include <ask/sample.hpp>
#include <ask/terms.hpp>
#include <callfit/ask/answer.hpp>
#include <callfit/ask/matchup.hpp>
#include <callfit/base/parallel.hpp>
#include <callfit/drive/adjoint.hpp>

#include <array>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace callfit::ask {

/// What exact points depart from a linear score t by: a t^2 + b t^3 along a path of mean players,
/// and what those of one score, who differ among themselves, have more in the mean.
struct Bend {
  double square = 0, cube = 0, aside = 0;

  double along(double t) const { return t * t * (square + cube * t); }
  double at(double t) const { return aside + along(t); }
};

/// A mean player of some draws: their mean score, and what his exact points depart from it.
struct PathPoint {
  double score = 0, departure = 0;
};

/// What derivatives that change along the path add to each draw; its mean is 0 at every score.
struct Twist {
  std::vector<double> points, net;
};

/// Points of a mean player, and how they move with his numbers and with calls.
struct FirstOrder {
  Player mean;
  PointGradients gradient;
  std::vector<Term> terms;  ///< of it

  /// Per drive, exact.
  DrivePoints at_mean() const { return {gradient.points.value, gradient.net_points.value}; }
  /// Of another player, to first order.
  DrivePoints at(const Player& player) const;
};

/// That at the posterior means.
struct Tangent : FirstOrder {
  FirstDownValues first_downs;
  std::optional<OutcomeWorth> outcomes;  ///< large; nothing where they were let go
  std::size_t exact_solves = 0;
};

/// Draws around an end of the interval, and their mean player.
struct PathEnd {
  std::vector<std::size_t> draws;
  FirstOrder first_order;
};

/// Points are per drive, one of each vector a draw.
struct Worth {
  std::shared_ptr<const Tangent> tangent;
  std::vector<double> points, net_points;
  Bend points_bend, net_bend;
  std::array<PathPoint, 2> points_ends, net_ends;  ///< around the ends of the interval
  std::shared_ptr<const Twist> twist;
  /// Draws and derivatives around both; nullptr where no derivatives were looked at.
  std::shared_ptr<const std::array<PathEnd, 2>> derivatives_at_ends;
  /// What the draws' linear scores have for a mean by chance: its expectation is 0.
  double points_by_chance = 0, net_by_chance = 0;
  Method method;  ///< the tangent's solves too
};

inline constexpr std::size_t gradient_cost = 3;  ///< of a gradient, in exact solves, about

/// The tangent of a matchup at a player; where one of a like matchup is `near`, for less.
Tangent tangent_of(const Matchup& matchup, const Player& mean, unsigned threads,
                   const Tangent* near = nullptr);

/// What outcomes of plays are worth at the tangent's player, worked out again where they were let
/// go.
OutcomeWorth outcomes_at(const Tangent& tangent, const Matchup& matchup, unsigned threads);
inline constexpr std::size_t outcomes_cost = 2;  ///< of that, in exact solves, about

/// A tangent without a solve, for what follows a moving hand: what outcomes of plays are worth,
/// which near must have, and derivatives stay near's, what he does with a play is exact.
Tangent tangent_beside(const Tangent& near, const Player& mean);

/// The same where calls move: other shares (`before` to `after`, of the same families and
/// situations) count by their derivatives.
Tangent with_calls(Tangent tangent, const Scheme& before, const Scheme& after);

/// Mean of scores whose expectation is 0; 0 where it is more than four standard errors, which is
/// not chance: the mean player is not theirs.
double by_chance(std::span<const double> score);

using SharedTangent = std::shared_ptr<const Tangent>;

/// Threads (0: one per core) for the few solves that depend on no other, and for every draw's.
struct Threads {
  unsigned few = 1, all = 1;
};

/// Points are close to linear in the plain numbers of a player, so: one gradient at his means, the
/// linear score of every draw, and exact solves along the path of mean players whose score is so
/// and so, which show the bend (a cubic through them). A few draws near the ends of the interval
/// are solved exactly; where they say that an end would be off by more than `tolerated_end`, every
/// draw is solved instead and `method` says so. docs/model.md, "Intervals of points".
Worth worth_of(const SharedTangent& tangent, const Matchup& matchup, const Sample& sample,
               const Player& mean, const Threads& threads, const Progress& progress = {});

/// The same from what is found at both ends of the path alone, unchecked: for what follows a moving
/// hand.
Worth worth_in_short(const SharedTangent& tangent, const Matchup& matchup, const Sample& sample,
                     const Player& mean, const Threads& threads);

/// The same for a stand that is `near`'s with something turned: the gradient is its own; near's
/// bend is moved by how much farther points depart around each end; what there is beside the path
/// is taken over. Where only what he does and what is called is turned, near's `scheme` is given,
/// and points around the ends are near's carried over to second order, if that does not go far;
/// else they are solved for. Where the two bends are apart by more than `tolerated_end` at an end,
/// so may be the rest, and the whole is done.
Worth worth_near(const Worth& near, const Scheme* scheme, const SharedTangent& tangent,
                 const Matchup& matchup, const Sample& sample, const Player& mean,
                 const Threads& threads, const Progress& progress = {});

/// The same with near's bend, without a solve.
Worth worth_beside(const Worth& near, const SharedTangent& tangent, const Sample& sample,
                   const Player& mean);

/// The same with every draw solved exactly: the reference.
Worth exact_worth_of(const SharedTangent& tangent, const Matchup& matchup, const Sample& sample,
                     const Player& mean, const Threads& threads, const Progress& progress = {});

inline constexpr double tolerated_end = 0.005;  ///< net points per drive

}  // namespace callfit::ask

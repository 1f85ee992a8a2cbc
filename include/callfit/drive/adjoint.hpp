// Exact derivatives of a drive's points by everything that a quarterback and his scheme bring to
// it, from one reverse sweep: visits of every state (the transposed system) times how each state's
// play changes. One gradient costs about as much as three solved drives, however many derivatives.
#pragma once

#include <callfit/drive/drive.hpp>

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace callfit {

/// Derivatives by the plain numbers of PlayerFamily, each taken alone. A rate's derivative counts
/// only where the family is played without regard to the shell, `shell` where it is.
struct FamilyGradient {
  std::array<double, rate_count> rate{};
  std::array<std::array<double, rate_count>, shell_count> shell{};
  std::vector<double> depth_bins, yac_bins, run_bins;
};

/// By the numbers of Player, and by call shares, of families that the scheme never calls too.
/// Shares and bins are differentiated as if free; combine them along directions that keep their
/// sum.
struct DriveGradient {
  double value = 0;  ///< what is differentiated, per drive
  std::vector<FamilyGradient> families;
  std::vector<double> scramble_bins, sack_bins;
  /// call[situation][shell][scheme family]: by the share called against the shell.
  std::vector<std::array<std::vector<double>, shell_count>> call;
};

struct PointGradients {
  DriveGradient points, net_points;
};

namespace drive {
struct Worth;
}

/// What each outcome of each play is worth to one player's drives: how often the play comes up,
/// times the points that follow the outcome. Immutable, cheap to copy (shared).
class OutcomeWorth {
 public:
  explicit OutcomeWorth(std::shared_ptr<const drive::Worth> worth) : worth_(std::move(worth)) {}
  const drive::Worth& worth() const { return *worth_; }
  /// The player's own.
  const FirstDownValues& first_downs() const;

 private:
  std::shared_ptr<const drive::Worth> worth_;
};

/// How closely the worth of outcomes is worked out.
struct WorthOptions {
  SolveOptions solve;
  double left = 1e-12;   ///< share of drives that are not followed to their end
  unsigned threads = 1;  ///< 0: one per core
};

/// From shares of starting yards_to_goal (size 100, index 0 unused, sums to 1). Fourth-down choices
/// count as fixed, which is exact for net points under FourthDownPolicy::best (envelope theorem).
OutcomeWorth outcome_worth(const DrivePlan& plan, const Player& player,
                           const std::vector<double>& start_share,
                           const WorthOptions& options = {});

/// Gradients at `player` with what outcomes are worth held as it is. Exact for the player of the
/// worth. For others exact in what they do with a play, while how often plays come up and what
/// follows them stays his; `value` is then of first order in the outcome table.
PointGradients differentiate(const OutcomeWorth& worth, const Player& player);

/// The same by call shares alone, for less: derivatives by the player's numbers are left 0 or
/// empty.
PointGradients differentiate_by_calls(const OutcomeWorth& worth, const Player& player);

/// What differentiate(worth, player) has for values, without derivatives: {points, net points} per
/// drive.
std::array<double, 2> values_beside(const OutcomeWorth& worth, const Player& player);

/// The quality class that most drives are played in; the first of several.
std::size_t usual_class(const DrivePlan& plan);

/// What differentiate() has, of drives in one quality class alone. `player` must be the worth's
/// own, and `start_share` too.
PointGradients differentiate_in_class(const OutcomeWorth& worth, const Player& player,
                                      std::size_t quality, const std::vector<double>& start_share);

/// {points, net points} per drive in one quality class alone, out of values at first and ten.
std::array<double, 2> points_in_class(const FirstDownValues& values, std::size_t quality,
                                      const std::vector<double>& start_share);

/// The same of several players: solved side by side, for much less than one after the other.
/// `options.near`, if any, is of all classes, as in solve_points().
std::vector<std::array<double, 2>> points_in_class(const DrivePlan& plan,
                                                   const std::vector<Player>& players,
                                                   std::size_t quality,
                                                   const std::vector<double>& start_share,
                                                   const SolveOptions& options = {});

/// Net points per drive of several players, in all quality classes: solved side by side and
/// without their points, for less than solve_points() of each. `threads`: 0 is one per core.
std::vector<double> net_points_of(const DrivePlan& plan, const std::vector<Player>& players,
                                  const std::vector<double>& start_share,
                                  const SolveOptions& options = {}, unsigned threads = 1);

/// Both for one player.
struct OwnWorth {
  OutcomeWorth outcomes;
  PointGradients gradients;
};
OwnWorth own_worth(const DrivePlan& plan, const Player& player,
                   const std::vector<double>& start_share, const WorthOptions& options = {});
PointGradients differentiate(const DrivePlan& plan, const Player& player,
                             const std::vector<double>& start_share);

/// Plays that come up in one situation of the scheme against one shell, where the same families can
/// be called.
struct CallPlace {
  std::size_t situation = 0;              ///< index into Scheme::situations
  std::optional<Shell> shell;             ///< nullopt where the setting knows no shells
  std::vector<std::size_t> out_of_reach;  ///< Scheme::families that cannot be called there
  double plays = 0;                       ///< per drive, no penalties
};

/// How often each of the scheme's families is called over those plays; sums to 1. Shares of
/// families out of reach are given to the others, unless none is left. `scheme` may call other
/// shares than the one the places were counted with, of the same families and situations.
std::vector<double> call_shares(const Scheme& scheme, const std::vector<CallPlace>& places);

/// What a drive is made of, per drive.
struct DriveCounts {
  std::vector<CallPlace> places;
  std::vector<double> calls;       ///< plays by scheme family, no penalties
  std::vector<double> touchdowns;  ///< by the snap's yards_to_goal, size 100
  /// Of a million plays, hardly one has more yards to go.
  int most_to_go = 0;
};
/// Share of drives that need not be followed to their end, where every digit is wanted.
inline constexpr double counted_to = 1e-14;
/// `left`: share of drives that are not followed to their end.
DriveCounts counts_over(const DriveModel& model, const std::vector<double>& start_share,
                        double left = counted_to);

}  // namespace callfit

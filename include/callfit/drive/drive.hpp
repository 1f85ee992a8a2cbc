// Playing out drives: one compiled outcome table, two engines (exact and Monte Carlo).
#pragma once

#include <callfit/base/names.hpp>
#include <callfit/base/parallel.hpp>
#include <callfit/profile/player.hpp>
#include <callfit/scheme/scheme.hpp>
#include <callfit/setting/setting.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string_view>
#include <vector>

namespace callfit {

/// How a drive ends.
enum class DriveResult {
  touchdown,
  field_goal,
  missed_field_goal,
  punt,
  interception,
  fumble,
  downs,
  safety,
  end_of_half
};
inline constexpr std::size_t drive_result_count = 9;

template <>
inline constexpr auto enum_words<DriveResult> =
    std::to_array<std::string_view>({"touchdown", "field_goal", "missed_field_goal", "punt",
                                     "interception", "fumble", "downs", "safety", "end_of_half"});

struct DriveState {
  int down = 1;            ///< 1 to 4
  int to_go = 10;          ///< 1 to yards_to_goal
  int yards_to_goal = 75;  ///< 1 to 99
};

/// The state of a new series at a spot: first and ten, or goal to go.
DriveState first_down_at(int yards_to_goal);

enum class FourthDownPolicy {
  table,  ///< the setting's shares of common choices
  best,   ///< whatever maximises net expected points
};

template <>
inline constexpr auto enum_words<FourthDownPolicy> = std::to_array<std::string_view>({"table",
                                                                                      "best"});

/// What follows a drive, as the net engine values it.
struct NetValues {
  /// Net expected points of first and ten at each yards_to_goal for the setting's average offence
  /// against another one; index 0 unused, size 100.
  std::vector<double> first_and_ten;
  double after_kickoff = 0;      ///< net points of the team about to receive a kickoff
  double after_safety_kick = 0;  ///< net points of the team about to receive a free kick
  /// Chance before each snap that the half ends, such that the setting's share of average drives
  /// is cut off; used only where DriveOptions::end_of_half is set.
  double half_hazard = 0;
};

struct DriveOptions {
  FourthDownPolicy policy = FourthDownPolicy::table;
  bool end_of_half = false;  ///< let the half cut off its share of drives
};

namespace drive {
struct Plan;
struct Table;
struct Solution;
}  // namespace drive

/// The compiled outcome table of one player in one scheme and setting: immutable once built, used
/// by both engines, cheap to copy (shared).
class DriveModel {
 public:
  explicit DriveModel(std::shared_ptr<const drive::Table> table) : table_(std::move(table)) {}
  const drive::Table& table() const { return *table_; }
  const std::shared_ptr<const drive::Table>& shared_table() const { return table_; }

 private:
  std::shared_ptr<const drive::Table> table_;
};

/// A scheme in a setting, with all that does not depend on the player worked out: make it once and
/// compile any number of players. `scheme_family[f]` is the setting's family of the scheme's
/// family f. `net` values what the opponent expects; give the setting's (average_net_values).
/// Throws InputError when some state matches no situation, shell rule or fourth-down rule.
class DrivePlan {
 public:
  DrivePlan(const Scheme& scheme, const std::vector<std::size_t>& scheme_family,
            const Setting& setting, const NetValues& net, const DriveOptions& options = {});
  DriveModel compile(const Player& player) const;

  /// The plan with other call shares, made from this one for a small part of what a new one costs.
  /// Families, and the situations' rules and order, must be the plan's, else
  /// std::invalid_argument.
  DrivePlan with_calls(const Scheme& scheme) const;
  /// Likewise with other shares of shells, for rules that are the plan's.
  DrivePlan with_shells(const std::vector<ShellRule>& shells) const;

  const drive::Plan& parts() const { return *plan_; }
  const std::shared_ptr<const drive::Plan>& shared_parts() const { return plan_; }

 private:
  explicit DrivePlan(std::shared_ptr<const drive::Plan> plan) : plan_(std::move(plan)) {}

  std::shared_ptr<const drive::Plan> plan_;
};

/// DrivePlan(...).compile(player), for a single use.
DriveModel compile_drives(const Player& player, const Scheme& scheme,
                          const std::vector<std::size_t>& scheme_family, const Setting& setting,
                          const NetValues& net, const DriveOptions& options = {});

/// Expected values of one drive from one state (or averaged over starts).
struct DriveValues {
  double points = 0;  ///< own points: touchdowns with their tries, field goals
  /// Own points minus the opponent's on this drive (safeties, return touchdowns) and minus what he
  /// then expects from where he takes over.
  double net_points = 0;
  std::array<double, drive_result_count> share{};  ///< of results, sums to 1
  double first_downs = 0;
  double plays = 0;  ///< snaps from scrimmage that count, no kicks
  double share_of(DriveResult result) const { return share[static_cast<std::size_t>(result)]; }
};

/// Every state of a drive solved at once, to a residual below 1e-11.
class ExactDrives {
 public:
  explicit ExactDrives(std::shared_ptr<const drive::Solution> solution)
      : solution_(std::move(solution)) {}
  DriveValues at(const DriveState& state) const;
  /// Averaged over shares of starting yards_to_goal (size 100, index 0 unused, sums to 1).
  DriveValues over(const std::vector<double>& start_share) const;
  /// Plays (no penalty, no kick) called in each of the scheme's situations per drive.
  std::vector<double> situation_visits(const std::vector<double>& start_share) const;

 private:
  std::shared_ptr<const drive::Solution> solution_;
};

ExactDrives solve(const DriveModel& model);

/// Points and net points at first and ten: [quality class][yards_to_goal].
using FirstDownValues = std::vector<std::vector<std::array<double, 2>>>;

/// Net and own points alone, for many draws: index by yards_to_goal, size 100.
struct PointValues {
  std::vector<double> points, net_points;  ///< at first and ten
  FirstDownValues by_class;
  double points_over(const std::vector<double>& start_share) const;
  double net_over(const std::vector<double>& start_share) const;
};

struct SolveOptions {
  /// Error expected of the values; the smallest is near 1e-14.
  double tolerance = 1e-13;
  /// Values of a like model with as many quality classes, to start from: the nearer, the fewer
  /// sweeps. nullptr: none are known.
  const FirstDownValues* near = nullptr;
  /// States with more yards to go, at least 10, are taken to lie in line with the nearer ones: for
  /// those who know that hardly any drive comes there (DriveCounts).
  int most_to_go = 99;
};

/// Throws std::invalid_argument where the near values have other quality classes.
PointValues solve_points(const DriveModel& model, const SolveOptions& options = {});

/// Plays (no penalty, no kick) called in each of the scheme's situations per drive: those of
/// ExactDrives::situation_visits(), for less work where nothing else is asked.
std::vector<double> situation_visits(const DriveModel& model,
                                     const std::vector<double>& start_share);
/// The same of drives from one state.
std::vector<double> situation_visits(const DriveModel& model, const DriveState& from);

/// What drives come to, per drive: as in DriveValues.
struct DriveFlow {
  std::array<double, drive_result_count> share{};
  double first_downs = 0;
  double plays = 0;
};

/// Over starts (size 100, index 0 unused, sums to 1): what ExactDrives::over() says of them, for
/// less work where nothing else is asked.
DriveFlow flow_over(const DriveModel& model, const std::vector<double>& start_share);

/// The setting's average offence in its average scheme, valued against itself to a fixed point.
/// `end_of_half` also finds the half_hazard that DriveOptions::end_of_half needs.
NetValues average_net_values(const Setting& setting, const Scheme& average_scheme,
                             bool end_of_half = false);

/// A digest of all that average_net_values() depends on, with the half_hazard: two settings and
/// schemes of the same digest have the same values. Names for people and where numbers come from
/// do not count.
std::uint64_t net_values_key(const Setting& setting, const Scheme& average_scheme);

inline constexpr std::size_t plays_told = 32;

/// Sampled counterpart of DriveValues with standard errors; integer tallies underneath, so equal
/// bits for any number of threads.
struct SampledValues {
  std::uint64_t drives = 0;
  DriveValues mean;
  DriveValues standard_error;
  std::array<double, plays_told> by_plays{};  ///< share of drives; the last: that many and more
};

struct SampleOptions {
  std::uint64_t seed = 0;
  std::uint64_t drives = 100'000;
  unsigned threads = 0;  ///< 0: one per core
};

/// Drives from one state, or from shares of starting yards_to_goal (size 100, index 0 unused, none
/// below 0, not all 0). Throws std::invalid_argument where shares are none. A larger sample of the
/// same seed does not begin with the drives of a smaller one.
SampledValues simulate(const DriveModel& model, const DriveState& start,
                       const SampleOptions& options, const Progress& progress = {});
SampledValues simulate_over(const DriveModel& model, const std::vector<double>& start_share,
                            const SampleOptions& options, const Progress& progress = {});

/// Next-score expected points of first and ten (the chain stops at the first score of either
/// side; `end_of_half` scores nothing): index by yards_to_goal, size 100.
std::vector<double> next_score_points(const Setting& setting, const Scheme& average_scheme,
                                      bool end_of_half);

}  // namespace callfit

// A coordinator's scheme: which play families he calls in which situation, and what each family
// asks of the quarterback.
#pragma once

#include <callfit/base/names.hpp>
#include <callfit/chart/rate.hpp>

#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

enum class FamilyKind { pass, qb_run, handoff };

template <>
inline constexpr auto enum_words<FamilyKind> = std::to_array<std::string_view>({"pass", "qb_run",
                                                                                "handoff"});

/// A group of calls that ask the same of a quarterback. Data, not code.
struct Family {
  std::string id;
  std::string label;
  FamilyKind kind = FamilyKind::pass;
  std::string about;
  std::string like;  ///< id of the setting's family whose population it shares; empty: its own id

  bool operator==(const Family&) const = default;
};

/// Inclusive range of yards or downs.
struct Band {
  int low = std::numeric_limits<int>::min();
  int high = std::numeric_limits<int>::max();

  constexpr bool contains(int value) const { return low <= value && value <= high; }
  constexpr bool operator==(const Band&) const = default;
};

/// A rule over down (1-4), to_go (yards) and yards_to_goal (1-99).
struct SituationRule {
  Band down;
  Band to_go;
  Band yards_to_goal;

  constexpr bool matches(int d, int distance, int spot) const {
    return down.contains(d) && to_go.contains(distance) && yards_to_goal.contains(spot);
  }
  constexpr bool operator==(const SituationRule&) const = default;
};

/// Index of the first of `rules` (anything with a SituationRule `when`) that matches; rules.size()
/// when none does.
template <class Rules>
constexpr std::size_t first_match(const Rules& rules, int down, int to_go, int yards_to_goal) {
  std::size_t index = 0;
  for (const auto& rule : rules) {
    if (rule.when.matches(down, to_go, yards_to_goal)) break;
    ++index;
  }
  return index;
}

/// Call shares in one situation, indexed like Scheme::families, each summing to 1.
struct CallSituation {
  std::string id;
  std::string label;
  SituationRule when;
  std::vector<double> share;
  /// Shares against one shell where the coordinator calls it differently; else `share`.
  std::array<std::optional<std::vector<double>>, shell_count> share_by_shell;
  /// How often the coordinator's chart met this situation; 0 when written by hand.
  double snaps = 0;

  const std::vector<double>& against(Shell shell) const {
    const auto& own = share_by_shell[static_cast<std::size_t>(shell)];
    return own ? *own : share;
  }
  bool operator==(const CallSituation&) const = default;
};

/// Whether the measure exists for a family of that kind: throws and dropbacks belong to passes,
/// run_gain to runs.
bool measure_applies(Measure measure, FamilyKind kind);

/// Whether more of the measure is usually wanted; not so for sacks, interceptions, pressure and
/// fumbles.
bool usually_better_high(Measure measure);

/// What a family asks for: `measure` (in `cell`, if given) at `level` or better.
struct Demand {
  std::size_t family = 0;  ///< index into Scheme::families
  Measure measure = Measure::completion;
  std::optional<Cell> cell;
  double level = 0;   ///< a share in [0, 1], or yards
  double weight = 1;  ///< > 0, relative to other demands
  bool more_is_better = true;

  bool operator==(const Demand&) const = default;
};

/// Correlation of the shortfalls of one family's demands, in the order they stand in
/// Scheme::demands: symmetric, positive definite, unit diagonal.
struct DemandCorrelation {
  std::size_t family = 0;
  std::vector<std::vector<double>> matrix;

  bool operator==(const DemandCorrelation&) const = default;
};

struct Scheme {
  std::string id;
  std::string name;
  std::string about;
  std::vector<Family> families;
  std::vector<CallSituation> situations;  ///< the last one matches everything
  std::vector<Demand> demands;
  std::vector<DemandCorrelation> correlations;
  std::string source;  ///< where its numbers come from

  /// Index of the family, or families.size() when the scheme does not know it.
  std::size_t find_family(std::string_view wanted) const;
  bool operator==(const Scheme&) const = default;
};

}  // namespace callfit

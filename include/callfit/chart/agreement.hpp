// How far two people charted the same snaps alike.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/chart/columns.hpp>
#include <callfit/chart/rate.hpp>
#include <callfit/chart/snap.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// Cohen's kappa with the ends of its 90% interval.
struct Kappa {
  double observed = 0;  ///< share of cases on which the two agree
  double expected = 0;  ///< the share that chance alone would give
  double value = 0;     ///< (observed - expected) / (1 - expected), at most 1
  double standard_error = 0;
  double low = 0;
  double high = 0;
};

/// Kappa of a square table, rows the first person's categories, columns the second's (Cohen 1960).
/// The standard error is the large-sample one of Fleiss, Cohen & Everitt (1969). nullopt for an
/// empty table and where both use one and the same category only (chance agreement is certain).
std::optional<Kappa> cohen_kappa(const std::vector<std::vector<double>>& table);

/// Two rows of the same snap.
struct SnapPair {
  std::size_t first = 0;   ///< index into the first chart's snaps
  std::size_t second = 0;  ///< index into the second's
};

struct Pairing {
  std::vector<SnapPair> pairs;
  std::vector<std::size_t> only_first;   ///< snaps that have no partner
  std::vector<std::size_t> only_second;  ///< snaps that have no partner
};

/// Pairs by snap_id where both charts have ids on every row, else by game and order: within a game
/// the longest run of rows that agree on down, to_go and yards_to_goal in order (longest common
/// subsequence), and rows between two matched ones in turn.
Pairing pair_snaps(const Chart& first, const Chart& second);

/// Whether two people can differ on a column: names, notes, ids and times are no matter of
/// agreement.
bool is_compared(ChartColumn column);

/// One column on which the two can differ.
struct ColumnAgreement {
  ChartColumn column = ChartColumn::result;
  std::size_t both = 0;         ///< pairs where both charted it
  std::size_t only_first = 0;   ///< pairs where one of them left it blank
  std::size_t only_second = 0;  ///< pairs where one of them left it blank
  std::size_t same = 0;         ///< of `both`, charted alike
  /// Over categories; numbers are put into the classes that rates use (air yards by depth, evaded
  /// as none or some) or taken as they are.
  std::optional<Kappa> kappa;
  double mean_difference = 0;  ///< of numbers: mean of |first - second|
  bool is_number = false;
};

/// A pair and a column on which it disagrees, both values charted.
struct Disagreement {
  SnapPair pair;
  ChartColumn column = ChartColumn::result;
  std::string first;
  std::string second;
};

/// A counted rate as each of the two charted it, over the paired snaps.
struct RateEffect {
  Rate rate = Rate::completion;
  double first_made = 0, first_of = 0;
  double second_made = 0, second_of = 0;
};

struct Agreement {
  Pairing pairing;
  std::vector<ColumnAgreement> columns;  ///< those that either of them charted
  std::vector<Disagreement> disagreements;
  std::vector<RateEffect> effects;  ///< rates with trials in both charts
};

Agreement agreement(const Chart& first, const Chart& second, const SuccessRule& rule = {});

}  // namespace callfit

// What can be asked of a case. Places are indices into Case::quarterbacks and Case::schemes.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/ask/case.hpp>
#include <callfit/ask/package.hpp>
#include <callfit/ask/sweep_range.hpp>
#include <callfit/ask/tailor_limits.hpp>
#include <callfit/drive/drive.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace callfit {

/// Who plays what, with what is turned.
struct Stand {
  std::size_t quarterback = 0;
  std::size_t scheme = 0;
  std::vector<Change> changes;
  /// A rate or gain that is turned counts as learned: what goes with it moves along. Else it moves
  /// alone.
  bool as_learned = false;
};

/// The man of one stand, with what is turned of him (rates, gains, weights of levels), in all else
/// of another.
Stand man_in(const Stand& man, const Stand& rest);

/// The case's other man, whom a stand is held against, in the same scheme: what is turned of the
/// scheme goes for both, what is turned of the man for him alone. Nothing where there is no other.
std::optional<Stand> held_against(const Stand& stand, const Case& about);

/// His game held against what the scheme demands.
struct FitRequest {
  Stand stand;
  bool weights_by_points = false;  ///< demands weigh what they score
};

/// Points, results and plays of a drive; `from` one state instead of the setting's starts.
struct DrivesRequest {
  Stand stand;
  std::optional<DriveState> from;
  std::uint64_t sampled_drives = 0;  ///< also drawn by the Monte Carlo engine; 0: none
};

/// Quarterbacks in schemes; empty lists mean all of the case.
struct CompareRequest {
  std::vector<std::size_t> quarterbacks, schemes;
};

/// Tries side by side, each against the stand as it is.
struct TryRequest {
  Stand stand;
  std::vector<Try> tries;  ///< at least one
};

/// One or two paths turned in equal steps.
struct SweepRequest {
  Stand stand;
  std::vector<SweepRange> ranges;  ///< one or two, of different paths
};

/// Which single change is worth most.
struct LeversRequest {
  Stand stand;
};

/// Where the first stand is worth as much as the second, over one path of the first; `both`: the
/// second is turned along.
struct BreakEvenRequest {
  Stand first, second;
  std::string path;
  bool both = false;
};

/// A few calls added in one situation.
struct PackageRequest {
  Stand stand;
  Package package;
};

/// The scheme bent to the quarterback.
struct TailorRequest {
  Stand stand;
  TailorLimits limits;
};

/// What to chart next, told for `snaps` more of each family.
struct NextRequest {
  Stand stand;
  double snaps = 40;
};

/// The season game by game; the first `before` charts of the quarterback are the tape before it.
struct TrendRequest {
  Stand stand;
  std::size_t before = 0;
  std::vector<KeptAnswer> kept;  ///< said earlier, to be held against the season
};

/// Half a page: the first against the second.
struct BriefRequest {
  Stand first, second;
};

/// A paragraph to say: the stand alone, or against another one.
struct SayRequest {
  Stand stand;
  std::optional<Stand> against;
};

/// The snaps behind a number, and how much each moved it.
struct SnapsRequest {
  Stand stand;
  std::string number;  ///< its address, or words of it that fit one alone
};

using Request = std::variant<FitRequest, DrivesRequest, CompareRequest, TryRequest, SweepRequest,
                             LeversRequest, BreakEvenRequest, PackageRequest, TailorRequest,
                             NextRequest, TrendRequest, BriefRequest, SayRequest, SnapsRequest>;

template <>
inline constexpr auto enum_words<Request> = std::to_array<std::string_view>(
    {"fit", "drives", "compare", "try", "sweep", "levers", "break_even", "package", "tailor",
     "next", "trend", "brief", "say", "snaps"});

/// "fit", "drives", ...: the kind of a request, as in JSON.
inline std::string_view kind_of(const Request& request) {
  return enum_words<Request>[request.index()];
}

}  // namespace callfit

#include <callfit/base/finding.hpp>
#include <callfit/validate/real_drives.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <map>
#include <numeric>

namespace callfit {
namespace {

using Drives = std::vector<const RealDrive*>;

struct StartBand {
  const char* name;
  Band yards_to_goal;
};

// Touchbacks of kickoffs (own 25) apart; the others as wide as keeps their starts alike.
constexpr std::array start_bands{StartBand{"own_1-9", {91, 99}},   StartBand{"own_10-14", {86, 90}},
                                 StartBand{"own_15-19", {81, 85}}, StartBand{"own_20-24", {76, 80}},
                                 StartBand{"own_25", {75, 75}},    StartBand{"own_26-29", {71, 74}},
                                 StartBand{"own_30-39", {61, 70}}, StartBand{"own_40-49", {51, 60}},
                                 StartBand{"opp_41-50", {41, 50}}, StartBand{"opp_31-40", {31, 40}},
                                 StartBand{"opp_21-30", {21, 30}}, StartBand{"opp_11-20", {11, 20}},
                                 StartBand{"opp_1-10", {1, 10}}};

// Three plays and a punt make the first one.
constexpr std::array length_bands{Band{0, 3},   Band{4, 6},   Band{7, 9},
                                  Band{10, 12}, Band{13, 15}, Band{16, 99}};

/// Why a drive cannot be compared with one that no clock ends; nothing where it can.
const char* reason_to_leave_out(const RealDrive& drive) {
  if (drive.quarter > 4) return "begun in overtime";
  if (drive.quarter % 2 == 0) return "begun in the second or fourth quarter";
  if (drive.kneel_only) return "nothing but kneeling";
  if (drive.result == DriveResult::end_of_half) return "cut off by the end of a half";
  return nullptr;
}

struct Sorted {
  Drives used;
  std::vector<LeftOut> left_out;
};

Sorted sorted(const std::vector<RealDrive>& drives) {
  Sorted out;
  std::map<std::string, double> reasons;
  for (const RealDrive& drive : drives) {
    if (const char* reason = reason_to_leave_out(drive))
      ++reasons[reason];
    else
      out.used.push_back(&drive);
  }
  for (const auto& [reason, n] : reasons) out.left_out.push_back({reason, n});
  return out;
}

std::size_t games_of(const Drives& drives) {
  std::map<std::string, bool> games;
  for (const RealDrive* drive : drives) games[drive->game] = true;
  return games.size();
}

struct Mean {
  double mean = 0, se = 0;
};

/// Mean over drives, its error from the games' sums of departures; `games`: how many were sampled.
Mean mean_of(const Drives& drives, std::size_t games,
             const std::function<double(const RealDrive&)>& value) {
  const auto n = static_cast<double>(drives.size());
  double sum = 0;
  for (const RealDrive* drive : drives) sum += value(*drive);
  const double mean = sum / n;
  std::map<std::string, double> departure;
  for (const RealDrive* drive : drives) departure[drive->game] += value(*drive) - mean;
  double squares = 0;
  for (const auto& [game, d] : departure) squares += d * d;
  const auto clusters = static_cast<double>(games);
  return {mean, std::sqrt(squares * clusters / (clusters - 1)) / n};
}

ObservedDrives counted(const char* start, const Band& band, const Drives& drives,
                       std::size_t games) {
  ObservedDrives out;
  out.start = start;
  out.yards_to_goal = band;
  out.n = static_cast<double>(drives.size());
  const Mean points = mean_of(drives, games, [](const RealDrive& d) { return d.points; });
  const Mean plays = mean_of(drives, games, [](const RealDrive& d) { return d.plays; });
  out.points = points.mean;
  out.points_se = points.se;
  out.plays = plays.mean;
  out.plays_se = plays.se;
  out.share_se.emplace();
  for (std::size_t r = 0; r < drive_result_count; ++r) {
    const Mean share = mean_of(drives, games, [r](const RealDrive& d) {
      return d.result == static_cast<DriveResult>(r) ? 1.0 : 0.0;
    });
    out.share[r] = share.mean;
    (*out.share_se)[r] = share.se;
  }
  return out;
}

Drives within(const Drives& drives, const Band& band) {
  Drives out;
  std::copy_if(drives.begin(), drives.end(), std::back_inserter(out), [&](const RealDrive* drive) {
    return drive->start_yards_to_goal && band.contains(*drive->start_yards_to_goal);
  });
  return out;
}

std::vector<ObservedShare> lengths_of(const Drives& drives, std::size_t games) {
  std::vector<ObservedShare> out;
  for (const Band& band : length_bands) {
    const Mean share = mean_of(drives, games, [&band](const RealDrive& drive) {
      return band.contains(static_cast<int>(drive.plays)) ? 1.0 : 0.0;
    });
    out.push_back({band, static_cast<double>(drives.size()), share.mean, share.se});
  }
  return out;
}

std::vector<double> starts_of(const Drives& drives) {
  std::vector<double> counts(100, 0.0);
  for (const RealDrive* drive : drives)
    if (drive->start_yards_to_goal) ++counts[static_cast<std::size_t>(*drive->start_yards_to_goal)];
  return counts;
}

[[noreturn]] void refuse(const std::string& source, const std::string& what,
                         const std::string& mend) {
  throw InputError(Finding{{source, 0, {}}, what, mend});
}

}  // namespace

Observed count_drives(const std::vector<RealDrive>& drives, const std::string& source) {
  const auto [used, left_out] = sorted(drives);
  const std::size_t games = games_of(used);
  if (games < 2)
    refuse(source,
           std::to_string(used.size()) + " drives begun in quarters 1 and 3 are left, of " +
               std::to_string(games) + " games",
           "give those of two games or more, so that a standard error can be told");
  Observed out;
  out.id = "drives";
  out.about =
      "Drives begun in quarters 1 and 3 of " + source + "; the model starts where they did.";
  out.source = source;
  out.starts = starts_of(used);
  const double known = std::accumulate(out.starts.begin(), out.starts.end(), 0.0);
  if (!(known > 0))
    refuse(source, "no drive begun in quarters 1 and 3 has a start_yards_to_goal",
           "fill in where they start");
  out.drives.push_back(counted("ALL", {1, 99}, used, games));
  out.lengths = lengths_of(used, games);
  out.left_out = left_out;
  out.starts_unknown = static_cast<double>(used.size()) - known;
  for (const StartBand& band : start_bands)
    if (const Drives inside = within(used, band.yards_to_goal); !inside.empty())
      out.drives.push_back(counted(band.name, band.yards_to_goal, inside, games));
  return out;
}

}  // namespace callfit

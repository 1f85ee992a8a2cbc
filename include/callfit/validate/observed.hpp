// What real drives did, to hold a setting against: never used to make one.
#pragma once

#include <callfit/drive/drive.hpp>

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// Drives that began in a band of the field.
struct ObservedDrives {
  std::string start;  ///< "own_25", "ALL"
  Band yards_to_goal;
  double n = 0;
  double points = 0;  ///< own points of a drive
  double points_se = 0;
  double plays = 0;
  double plays_se = 0;  ///< 0: unknown
  std::array<double, drive_result_count> share{};
  /// Standard errors of the shares by game; nothing where only shares were counted.
  std::optional<std::array<double, drive_result_count>> share_se{};

  /// Of one share: by game where that is known, else as if drives were independent.
  double share_error(std::size_t result) const;
};

/// Drives that were not counted.
struct LeftOut {
  std::string reason;
  double n = 0;
};

/// A share counted over `n` cases in a band (of yards_to_goal, of to_go, of plays).
struct ObservedShare {
  Band band;
  double n = 0;
  double share = 0;
  double se = 0;  ///< by game; 0: only the share was counted

  /// By game where that is known, else as if cases were independent.
  double error() const;
};

/// Expected points at first and ten in a band of yards_to_goal.
struct ObservedPoints {
  Band yards_to_goal;
  double n = 0;
  double points = 0;
  double se = 0;
};

/// A published drive from one state.
struct PublishedDrive {
  DriveState start;
  double points = 0;
  double plays = 0;
  std::array<double, drive_result_count> share{};
};

struct Observed {
  std::string id;
  std::string setting;  ///< id of the setting that it belongs to
  std::string about;
  std::string source;
  std::vector<double> starts;  ///< drives by starting yards_to_goal; size 100, index 0 unused
  std::vector<ObservedDrives> drives;  ///< the first one: all
  std::vector<LeftOut> left_out;
  double starts_unknown = 0;  ///< drives that count in the first of `drives` but not in `starts`
  std::vector<ObservedShare> series;   ///< of series: first down or touchdown; bands of the field
  std::vector<ObservedShare> lengths;  ///< of all drives; bands of plays, the last one without end
  std::vector<ObservedShare> third_down;       ///< of played third downs; bands of to_go
  ObservedShare red_zone;                      ///< of drives with a snap inside the 20: touchdowns
  std::vector<ObservedPoints> points;          ///< next score, by bands of the field
  std::vector<ObservedPoints> points_by_yard;  ///< next score, one yard each
  std::vector<PublishedDrive> own_drive;       ///< Goldner 2012: counts the own drive only
  std::string own_drive_source;
  std::vector<ObservedPoints> next_score;  ///< Carter and Machol 1971: counts the next score
  std::string next_score_source;
};

}  // namespace callfit

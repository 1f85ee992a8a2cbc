// Results as text for a terminal (100 columns).
#pragma once

#include <callfit/ask/comparison.hpp>
#include <callfit/ask/matchup.hpp>
#include <callfit/drive/drive.hpp>
#include <callfit/fit/fit.hpp>
#include <callfit/profile/profile.hpp>

#include <string>
#include <vector>

namespace callfit {

/// Tables of games, of each family's rates with intervals, and of rates by condition.
std::string profile_text(const Profile& profile, const Setting& setting);

/// The fit in one sentence, then the table of demands that adds up to D^2, then unused strengths.
std::string fit_text(const FitReport& report, const Profile& profile, const BoundScheme& scheme,
                     const Setting& setting);

/// The call mix by situation.
std::string scheme_text(const Scheme& scheme);

struct DrivesReport {
  DriveValues exact;  ///< averaged over the setting's starts, or from `start`
  std::optional<DriveState> start;
  std::optional<SampledValues> sampled;
  std::vector<double> situation_visits;  ///< per drive, indexed like Scheme::situations
  double drives_per_game = 0;
};
std::string drives_text(const DrivesReport& report, const Profile& profile, const Scheme& scheme);

/// One profile in one scheme.
struct Entry {
  std::string profile;
  std::string scheme;
  FitReport fit;
  Worth worth;
  double chance_best = 0;  ///< share of draws in which it has the most net points of all entries
};

/// Any number of entries, and the difference of the first two.
struct ComparisonReport {
  std::vector<Entry> entries;
  std::optional<Difference> first_two;
  double drives_per_game = 0;
};
std::string comparison_text(const ComparisonReport& report);

/// "A and B cannot be told apart ..." or "A is worth 1.2 points a game more than B ...": never
/// claims more than the interval allows.
std::string verdict(const std::string& first, const std::string& second,
                    const Difference& difference);

}  // namespace callfit

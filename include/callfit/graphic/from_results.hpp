// Results of the layers below as the plain values that pictures take.
#pragma once

#include <callfit/ask/bands.hpp>
#include <callfit/ask/comparison.hpp>
#include <callfit/ask/matchup.hpp>
#include <callfit/fit/fit.hpp>
#include <callfit/graphic/curves.hpp>
#include <callfit/graphic/dress.hpp>
#include <callfit/graphic/drive_results.hpp>
#include <callfit/graphic/fit_picture.hpp>
#include <callfit/graphic/throw_map.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/profile/throw_zones.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// The value with its interval, widened where a value at the posterior means lies just outside
/// the draws' interval.
Reading reading_of(const UncertainValue& value);

/// The last starter, and the new one's points against him.
struct Against {
  std::string name;
  Difference difference;
};

FitPicture fit_picture(const Profile& profile, const FitReport& report, const Matchup& matchup,
                       const std::optional<Against>& against);

ThrowMap throw_map(const std::string& player, const std::vector<ThrowZone>& zones,
                   const Setting& setting);

DriveResults drive_results_picture(const Profile& first, const DriveBands& first_bands,
                                   const Profile& second, const DriveBands& second_bands,
                                   const Difference& difference, const Matchup& matchup);

/// One or two curves of net (or own) points at first and ten.
PointsByYard points_by_yard(const std::vector<std::string>& names,
                            const std::vector<DriveBands>& bands, const Matchup& matchup, bool net);

/// Snaps by level, for the footer.
TapeNote tape_note(const Profile& profile);

}  // namespace callfit

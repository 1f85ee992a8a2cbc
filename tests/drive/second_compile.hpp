// The outcomes of one snap, written a second time from docs/model.md ("One snap"): plain and slow,
// state by state, without the drive engine's tables and helpers.
#pragma once

#include <callfit/drive/drive.hpp>

#include <map>
#include <vector>

namespace second {

using namespace callfit;

/// Of a snap that is played: no penalty, no kick. All of it sums to 1.
struct Outcomes {
  std::map<int, double> keep, fumble;  ///< by gain, short of the goal line
  std::vector<double> interception;    ///< by the setting's families
  double touchdown = 0;
};

/// `families` are the setting's of the scheme's, as BoundScheme::setting_family.
Outcomes outcomes_of(const Setting& setting, const Scheme& scheme,
                     const std::vector<std::size_t>& families, const Player& player,
                     const Shifts& quality, const DriveState& state);

}  // namespace second

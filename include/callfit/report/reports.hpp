// What a case holds, as text for a terminal (100 columns).
#pragma once

#include <callfit/ask/knob.hpp>
#include <callfit/profile/population_fit.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/scheme/scheme.hpp>
#include <callfit/setting/setting.hpp>

#include <string>
#include <vector>

namespace callfit {

/// Tables of games, of each family's rates with intervals, and of rates by condition.
std::string profile_text(const Profile& profile, const Setting& setting);

/// The call mix by situation.
std::string scheme_text(const Scheme& scheme);

/// Mean and spread of every fitted rate with intervals, beside the setting's.
std::string population_text(const PopulationFit& fit, const Setting& setting);

/// Every path that can be turned with its value, one a line; as wide as the paths are long.
std::string knobs_text(const std::vector<KnobValue>& knobs);

}  // namespace callfit

// Profiles as JSON that a person can read and edit. docs/formats.md describes the format.
#pragma once

#include <callfit/profile/profile.hpp>
#include <callfit/setting/setting.hpp>

#include <string>
#include <string_view>

namespace callfit {

/// The profile as "callfit-profile/1" text. `setting` is the one it was built with; it names the
/// bins of the gains.
std::string profile_to_json(const Profile& profile, const Setting& setting);

/// A profile read back; equal to the one written, to the last bit. What counts for a rate is its
/// mean and strength, intervals are derived. Where a person has changed a rate (its interval no
/// longer belongs to it) or left out the mean of a cell, the cells follow the family. Throws
/// InputError for faults and for a profile of another setting.
Profile parse_profile(std::string_view text, const std::string& source, const Setting& setting);

}  // namespace callfit

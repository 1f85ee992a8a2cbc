// Files named on the command line into values.
#pragma once

#include "cli/options.hpp"

#include <callfit/ask/matchup.hpp>
#include <callfit/format/chart.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/scheme/scheme.hpp>
#include <callfit/setting/setting.hpp>

#include <string>
#include <vector>

namespace callfit::cli {

/// A shipped file or the user's own: `name` itself when such a file exists, else
/// KIND/NAME.json among the shipped data. Throws InputError that lists the shipped names.
std::string find_data(const std::string& kind, const std::string& name);

Setting load_setting(Files& disk, const std::string& name);
Scheme load_scheme(Files& disk, const std::string& name);
Scheme load_average_scheme(Files& disk, const Setting& setting);

/// Families of a scheme that share another family's population.
std::vector<FamilyAlias> aliases_of(const Scheme& scheme);

/// The families and levels that a chart may name.
ChartWords words_of(const Setting& setting, const std::vector<FamilyAlias>& like);

/// Charts in the words of the setting and of `like`, with notices and warnings printed to standard
/// error.
std::vector<Chart> load_charts(Files& disk, const std::vector<std::string>& files,
                               const Setting& setting, const std::vector<FamilyAlias>& like);

/// A profile from its JSON file, or built on the spot from a chart (a .csv).
Profile load_profile(Files& disk, const std::string& file, const Setting& setting,
                     const std::vector<FamilyAlias>& like);

/// --setting, --policy, --end-of-half
void add_setting_options(Options& options);
/// --scheme and those
void add_matchup_options(Options& options);
DriveOptions drive_options_of(const po::variables_map& values);
Matchup load_matchup(Files& disk, const po::variables_map& values);

}  // namespace callfit::cli

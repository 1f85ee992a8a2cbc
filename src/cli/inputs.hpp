// Files named on the command line into values.
#pragma once

#include "cli/options.hpp"

#include <callfit/format/case.hpp>
#include <callfit/format/glossary.hpp>
#include <callfit/scheme/scheme.hpp>
#include <callfit/setting/setting.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit::cli {

/// KIND/NAME.json among the shipped data.
std::optional<std::string> shipped_file(const std::string& kind, const std::string& name);

/// A shipped file or the user's own: `file` (else `name` itself) when there is such a file, else
/// the shipped one. Throws InputError that lists the shipped names.
std::string find_data(const std::string& kind, const std::string& name);
std::string find_data(const std::string& kind, const std::string& name, const std::string& file);

/// Where the engine of pages lies: beside the shipped data, else where scripts/page-engine puts it.
std::string engine_folder();

/// The entries of docs/glossary.md.
std::vector<GlossaryEntry> load_glossary(Files& disk);

/// What docs/glossary.md says of a word, wrapped. Throws po::error for a word that it does not
/// have.
std::string meaning_of(Files& disk, const std::string& word);
/// All that it knows.
Words words_known(Files& disk);

Setting load_setting(Files& disk, const std::string& name);
Scheme load_scheme(Files& disk, const std::string& name);
Scheme load_average_scheme(Files& disk, const Setting& setting);

/// What real drives of the setting's level did: the shipped file that is named after its id and the
/// years ("pro-2015-2018"). Throws InputError where there is none.
std::string find_observed_of(const Setting& setting);

/// Charts in the words of the setting and of `like`, with notices and warnings printed to standard
/// error.
std::vector<Chart> load_charts(Files& disk, const std::vector<std::string>& files,
                               const Setting& setting, const std::vector<FamilyAlias>& like);

/// --setting, --policy, --end-of-half
void add_setting_options(Options& options);

}  // namespace callfit::cli

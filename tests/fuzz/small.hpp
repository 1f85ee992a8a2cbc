// Shipped data cut down to what keeps every kind of entry, so that a mutated document is read in
// well below a millisecond. Cut when the program starts: a format that moves moves these along.
#pragma once

#include <string>

namespace callfit::fuzz {

/// A file of the project.
std::string file(const std::string& name);

/// A shipped setting with three families and the first entries of each list; based on nothing.
std::string small_setting_text();
/// The same without population.
std::string plain_setting_text();
/// Families and schemes of those families.
std::string small_families_text();
std::string small_scheme_text(const std::string& name);
/// The header of a shipped chart and its first `rows` rows of those families.
std::string small_chart_text(const std::string& name, int rows);

}  // namespace callfit::fuzz

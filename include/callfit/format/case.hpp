// Cases as JSON. docs/formats.md describes the format.
#pragma once

#include <callfit/ask/case.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/format/beside.hpp>
#include <callfit/format/chart.hpp>

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// What a case names instead of holding it.
enum class CasePart {
  setting,
  scheme,
  profile,
  chart,
  style,
  net_values,
  record,
  opponents,
  seasons
};

/// Finds what a case called `source` names; nothing where there is no such thing. Only net values
/// and the record may be missing.
using CaseTexts = std::function<std::optional<SourceText>(CasePart part, const std::string& name,
                                                          const std::string& source)>;

/// Families of a scheme that share another family's population.
std::vector<FamilyAlias> aliases_of(const Scheme& scheme);

/// The families and levels that a chart may name.
ChartWords words_of(const Setting& setting, const std::vector<FamilyAlias>& like);

/// A "callfit-case/1" text with all that it names. What is odd in charts and names: `notices`.
/// Throws one InputError with everything that is wrong, each with its JSON path.
Case parse_case(std::string_view text, const std::string& source, const CaseTexts& texts,
                const Beside& beside, Findings& notices);

/// The case as text that names nothing: setting, schemes and profiles are inside. Charts are not;
/// read back, a quarterback is his profile. `text`, `source`, `texts` and `beside` are what the
/// case was read from.
std::string whole_case(const Case& about, std::string_view text, const std::string& source,
                       const CaseTexts& texts, const Beside& beside);

/// The document of a case with these tries in place of its own, everything else as it says. Throws
/// InputError where the text is no JSON.
std::string with_tries(std::string_view text, const std::string& source,
                       const std::vector<Try>& tries);

}  // namespace callfit

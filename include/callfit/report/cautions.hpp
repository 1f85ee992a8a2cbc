// The words of caution that go with every result.
#pragma once

#include <array>
#include <string>
#include <string_view>

namespace callfit {

inline constexpr std::string_view not_for_decisions =
    "Not for medical, eligibility or betting decisions.";
inline constexpr std::string_view contact_exposure =
    "Designed runs raise contact exposure; return to play belongs to licensed medical staff.";
inline constexpr std::string_view data_about_minors = "Respect local rules on data about minors.";

inline constexpr auto cautions = std::to_array<std::string_view>(
    {"A few charted snaps are a small sample, so read the intervals before the numbers.",
     not_for_decisions, contact_exposure, data_about_minors});

/// How to read a number with its interval, where nothing else says so.
inline constexpr std::string_view brackets_meaning =
    "In brackets: the central 90% of what the tape allows.";

/// "Cautions: ..." as one paragraph, not wrapped.
std::string cautions_text();

/// A text for a terminal with the cautions after it.
std::string with_cautions(const std::string& text);

}  // namespace callfit

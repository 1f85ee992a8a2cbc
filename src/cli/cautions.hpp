// The words of caution that go with every result.
#pragma once

namespace callfit::cli {

inline constexpr auto cautions =
    "Cautions: a few charted snaps are a small sample, so read the intervals before the numbers. "
    "Not for medical, eligibility or betting decisions. Designed runs raise contact exposure; "
    "return to play belongs to licensed medical staff. Respect local rules on data about minors.";

}  // namespace callfit::cli

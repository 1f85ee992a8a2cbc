// What was said of a quarterback on a day, kept to be held against what came.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/ask/case.hpp>
#include <callfit/profile/profile.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// Keeps the verdicts on shares; means in yards are not kept, since a season's counts alone do not
/// show them. `profile`: his, whose games are known by then. `date` as in ISO 8601, "2026-11-28".
KeptAnswer kept_answer(const FitAnswer& fit, const Profile& profile, const std::string& date);

/// Holds verdicts against what a season's charts counted; `season` is the profile of these charts
/// alone. The odds of what was said are about the true rate; of n snaps the count may fall on the
/// other side, so they are told anew for that many: binomial over a logit-normal belief with the
/// kept middle and 90% ends. Verdicts with fewer than `fewest_scored` trials are left out.
KeptScore score_of(const std::vector<KeptAnswer>& kept, const Profile& season);

/// Holds each against what was charted since: the snaps of his tape, in the charts' order, beyond
/// as many of each game as were charted by then. Nothing where there are none, or no charts.
std::optional<KeptScore> score_since(const std::vector<KeptAnswer>& kept,
                                     const Quarterback& quarterback, const Setting& setting);

inline constexpr double fewest_scored = 10;  ///< trials

}  // namespace callfit

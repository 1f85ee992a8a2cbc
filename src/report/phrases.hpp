// Sentences and tables that several answers share.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/report/number_text.hpp>
#include <callfit/report/table.hpp>

#include <string>

namespace callfit {

/// What net points are a difference of.
inline constexpr auto net_points_meaning =
    "net points: his points less what the opponent then expects";

/// "A in S".
std::string stand_text(const About& about);

/// "308 charted snaps (197 college, 111 high school)".
std::string tape_phrase(const About& about);

/// "308 charted snaps (197 college, 111 high school); level of play: college." as a line, and what
/// the answer rests on beside.
std::string tape_line(const About& about);

/// "With assumed spreads half as wide net points were 3.2% narrower; ..." and what else the answer
/// rests on; empty where nothing is known of it.
std::string rests_text(const About& about);

/// Its first sentence, for small print; empty likewise.
std::string assumed_note(const About& about);

std::string capital(std::string text);

/// "odds 19 in 20"; where open "odds 2 in 3 for A" or "odds about even". Says so where another seed
/// could choose another word.
std::string odds_text(const Verdict& verdict, const std::string& yes, const std::string& no);

/// "A is clearly ahead of B (odds 19 in 20): +1.20 net points a game for A, 90% interval +0.31 to
/// +2.20."
std::string difference_sentence(const DifferenceAnswer& difference);

/// "clearly better (odds 19 in 20): net points a game change by +1.20, 90% interval +0.31 to
/// +2.20", or that no drive changes.
std::string better_sentence(const TryResult& result);

/// Before, after, change and its interval of place and points.
std::string effects_table(const TryResult& result);

/// What moved, the asked paths first; empty for nothing. `as_learned` as in Stand.
std::string moved_table(const TryResult& result, bool as_learned = false);

/// How the points were found, as a paragraph.
std::string method_line(const Method& method);

/// What the ends of an interval owe to the seed, as a line; empty where it is known exactly.
std::string seed_line(const Number& number, Unit unit, const std::string& what);

/// Whether the 90% interval lies on one side of 0.
bool one_sided(const Number& number);

/// "clear: 3 said, 2.9 expected to come, 3 came; ...", by how sure it was.
std::string kept_groups_text(const KeptScore& score);

/// "23 of 31"; empty where nothing is counted.
std::string counted(double made, double of);

}  // namespace callfit

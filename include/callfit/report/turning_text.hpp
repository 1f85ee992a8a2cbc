// What is turned and what it does, in words: for pages, where tables are too much.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/ask/case.hpp>
#include <callfit/ask/knob.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// The levers that are worth trying first: those that gain most net points, handoffs apart, no two
/// of one play family and, where there are such, calls and rates both. At most `most`.
std::vector<LeverAnswer> worth_trying(const LeversAnswer& answer, std::size_t most);

/// "More calls of Boot on first down: 11% to 21%".
std::string lever_words(const LeverAnswer& lever);
/// "+0.31 net points a game (+0.10 to +0.52)".
std::string lever_gain(const LeverAnswer& lever);
/// What the lever does, as a change.
Change lever_change(const LeverAnswer& lever);

/// "Completion, Intermediate: 50% to 59%".
std::string moved_words(const Moved& moved);

/// What became of a try in one sentence, such as "Clearly better (odds 19 in 20): ...".
std::string try_words(const TryResult& result);

/// "Of 100 quarterbacks of this level 50 fitted it worse before, 43 do now."
std::string place_words(const TryResult& result);

/// Tries side by side, a row each below a row of heads.
std::vector<std::vector<std::string>> try_rows(const TryAnswer& answer);

/// "Boot, completion: 50% (40-55%), asked 60%, clearly short".
std::string kept_words(const KeptVerdict& said);
/// "Since then: clear: 3 said, 2.9 expected to come, 3 came", or that nothing was charted since.
std::string kept_since_words(const std::optional<KeptScore>& score);
/// "14 of 27 since: it came, for which odds were 62%".
std::string came_words(const KeptOutcome& outcome);

/// The value of a path in words.
std::string knob_value_text(const KnobValue& knob);

}  // namespace callfit

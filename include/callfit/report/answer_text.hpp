// Answers as text for a terminal: first what can be said, in the verdict's words, then the tables.
// At most 100 columns; names longer than their column are cut with an ellipsis in tables only.
#pragma once

#include <callfit/ask/answer.hpp>

#include <cstddef>
#include <string>

namespace callfit {

inline constexpr std::size_t levers_shown = 15;

/// Any answer, with the defaults of the functions below.
std::string text_of(const Answer& answer);

std::string fit_text(const FitAnswer& answer);
std::string drives_text(const DrivesAnswer& answer);
std::string compare_text(const CompareAnswer& answer);
/// One try with all that moved; more of them side by side in one table.
std::string try_text(const TryAnswer& answer);
std::string sweep_text(const SweepAnswer& answer);
/// The `most` first levers.
std::string levers_text(const LeversAnswer& answer, std::size_t most = levers_shown);
std::string break_even_text(const BreakEvenAnswer& answer);
std::string package_text(const PackageAnswer& answer);
std::string tailor_text(const TailorAnswer& answer);
std::string next_text(const NextAnswer& answer);
/// Its first sentences, on one line: what to chart next, what it brings, on how much film.
std::string next_words(const NextAnswer& answer);
std::string trend_text(const TrendAnswer& answer);
/// Half a page in plain English, as Markdown or wrapped plain text.
std::string brief_text(const BriefAnswer& answer, bool markdown = false);
/// Three or four sentences to copy, on one line; say_text() wraps them.
std::string paragraph(const SayAnswer& answer);
std::string say_text(const SayAnswer& answer);

}  // namespace callfit

#include <callfit/ask/verdict.hpp>

#include <array>
#include <cmath>
#include <utility>

namespace callfit {
namespace {

constexpr std::array<std::pair<double, std::string_view>, 7> counts{{{0.99, "99 in 100"},
                                                                     {0.95, "19 in 20"},
                                                                     {0.9, "9 in 10"},
                                                                     {0.8, "4 in 5"},
                                                                     {0.75, "3 in 4"},
                                                                     {2.0 / 3, "2 in 3"},
                                                                     {0.6, "3 in 5"}}};

}  // namespace

Lean Verdict::lean() const {
  if (of_side() >= clear_from) return Lean::clear;
  return of_side() >= leans_from ? Lean::leans : Lean::open;
}

bool Verdict::is_the_levels() const {
  if (!level_odds || lean() == Lean::open) return false;
  const Verdict level{*level_odds, 0, {}};
  return level.yes() == yes() && level.lean() <= lean();
}

bool Verdict::near_threshold() const {
  return std::abs(of_side() - clear_from) <= error || std::abs(of_side() - leans_from) <= error;
}

std::string odds_words(double odds) {
  const double side = odds < 0.5 ? 1 - odds : odds;
  for (const auto& [from, words] : counts)
    if (side >= from) return std::string(words);
  return "about even";
}

std::string ahead_words(const Verdict& verdict, const std::string& first,
                        const std::string& second) {
  const std::string& lead = verdict.yes() ? first : second;
  switch (verdict.lean()) {
    case Lean::clear:
      return lead + " is clearly ahead of " + (verdict.yes() ? second : first);
    case Lean::leans:
      return "it leans to " + lead;
    default:
      return "open between " + first + " and " + second;
  }
}

std::string reach_words(const Verdict& verdict) {
  std::string words = "open";
  if (verdict.lean() == Lean::clear) words = verdict.yes() ? "clearly there" : "clearly short";
  if (verdict.lean() == Lean::leans) words = verdict.yes() ? "probably there" : "probably short";
  if (verdict.is_the_levels()) words += ", as most of his level are";
  return words;
}

std::string reach_odds_words(const Verdict& verdict) {
  const std::string side = verdict.yes() ? "there" : "short";
  const std::string odds = odds_words(verdict.odds);
  if (verdict.lean() == Lean::clear) return "clearly " + side;
  if (verdict.lean() == Lean::leans) return side + ", " + odds;
  return odds == odds_words(0.5) ? "open" : "open, " + side + ' ' + odds;
}

std::string better_words(const Verdict& verdict) {
  if (verdict.lean() == Lean::open) return "open";
  const std::string how = verdict.lean() == Lean::clear ? "clearly " : "probably ";
  return how + (verdict.yes() ? "better" : "worse");
}

}  // namespace callfit

// What may be said: how sure, which way, in which words. The only place with thresholds.
#pragma once

#include <callfit/ask/number.hpp>
#include <callfit/base/names.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace callfit {

/// How far the odds settle a question of which way. `clear` is also where the 90% interval lies
/// wholly on one side.
enum class Lean { clear, leans, open };

template <>
inline constexpr auto enum_words<Lean> = std::to_array<std::string_view>({"clear", "leans",
                                                                          "open"});

inline constexpr double clear_from = 0.95;  ///< odds; 19 in 20
inline constexpr double leans_from = 0.75;  ///< odds; 3 in 4

/// Yes or no, first or second, above or below: the odds of yes, with their sampling error.
struct Verdict {
  double odds = 0.5;  ///< of yes, in [0, 1]; ties count half
  double error = 0;   ///< two Monte Carlo standard errors of the odds; 0: known exactly
  /// The odds for a quarterback of the level of whom nothing was charted, where that is a question.
  std::optional<double> level_odds = {};

  bool yes() const { return odds >= 0.5; }
  double of_side() const { return yes() ? odds : 1 - odds; }  ///< odds of the likelier side
  Lean lean() const;
  /// Whether the level alone says as much: a verdict that is not open, and no surer than that of
  /// somebody of whom nothing was charted.
  bool is_the_levels() const;
  /// Whether another seed could put it on the other side of a threshold.
  bool near_threshold() const;
};

/// Odds in words of counts: "19 in 20", "9 in 10", "3 in 4", "2 in 3", "even"; above 19 in 20 "more
/// than 19 in 20". Never more than the odds say: rounded toward even.
std::string odds_words(double odds);

/// "clear: A is ahead of B", "leans to A", "open between A and B": the same words for the same
/// lean and side, whatever the seed. `subject` says who leads when yes and when no.
std::string ahead_words(const Verdict& verdict, const std::string& first,
                        const std::string& second);

/// "clearly there", "probably short", "open"; where the level alone says as much, it adds "as most
/// of his level are".
std::string reach_words(const Verdict& verdict);

/// "clearly short", "short, 9 in 10", "open, there 2 in 3", "open": the side with its odds, the
/// level left out.
std::string reach_odds_words(const Verdict& verdict);

/// "clearly better", "probably worse", "open".
std::string better_words(const Verdict& verdict);

}  // namespace callfit

// Pieces that settings are made of.
#pragma once

#include <callfit/setting/setting.hpp>
#include <format/part.hpp>

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

inline constexpr Texts source_rule{
    1, unlimited,
    "where the numbers come from: a key of sources, or words; \"assumed\" if nowhere"};
inline constexpr Numbers shift_rule{-5, 5, "a log-odds shift from -5 to 5"};
/// Below these a Beta is a point, or lies at 0 and 1 alone, and what is worked out of it no number.
inline constexpr double least_spread = 1e-4;
inline constexpr double least_strength = 0.01;
inline constexpr Numbers cell_kappa_rule{
    least_strength, 1e6, "how many snaps the shifted family rate is worth, 0.01 to 1000000"};

enum class Source { needed, optional };

/// Keys for people, checked and passed over: "source" (where the numbers come from), "n" (how many
/// rows stand behind them) and "about".
void read_notes(Fields& fields, Source source = Source::optional);

/// Brings values to a sum of 1; a fault at `part` when they miss it by more than rounding. Nothing
/// where something is wrong with the values already.
void settle_shares(const std::vector<double*>& shares, const Part& part);

inline constexpr std::string_view pmf_want =
    R"(probabilities of yards such as {"from": -1, "p": [0.2, 0.5, 0.3]})";
YardPmf pmf_from(const Part& part);
YardPmf pmf_as(const Part& part, std::string_view want);

/// A pmf of own yard lines under a key that is needed: a fault unless it lies within 1 to 99.
YardPmf own_yards_from(Fields& fields, std::string_view key, std::string_view want);

inline constexpr std::string_view gain_want = "a gain distribution: from, p, bins, kappa, source";
GainPopulation gain_from(const Part& part);

/// Log-odds shifts under keys that are the words of Enum (rates, gain parts).
template <class Enum, std::size_t N>
std::array<double, N> shifts_of(Fields& fields) {
  std::array<double, N> shifts{};
  for (std::size_t i = 0; i < N; ++i)
    shifts[i] = fields.number_or(word(static_cast<Enum>(i)), shift_rule, 0.0);
  return shifts;
}

inline constexpr std::string_view rate_shifts_want = "log-odds shifts by rate";
std::array<double, rate_count> rate_shifts_from(const Part& part);

/// Shifts from the optional keys "rates" and "gains".
Shifts shifts_from(Fields& fields);
std::array<double, gain_part_count> gain_shifts_from(Fields& fields);

/// Families and kinds from the optional keys of those names; unknown families are faults.
FamilyFilter filter_from(Fields& fields, const std::vector<FamilyPopulation>& families);

/// A rule from the key "when".
SituationRule when_from(Fields& fields);
SituationRule when_or_always(Fields& fields);

/// The parts of a setting, each in the file named after it.
std::vector<FamilyPopulation> families_from(Fields& document);
std::vector<CellPopulation> cells_from(Fields& document,
                                       const std::vector<FamilyPopulation>& families);
Population population_from(const Part& part, const std::vector<FamilyPopulation>& families,
                           const GainPopulation& scramble, const GainPopulation& sack);
void read_game(Fields& document, Setting& setting);

}  // namespace callfit

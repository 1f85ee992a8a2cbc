// Pieces that settings are made of, from JSON parts that fit their schema.
#pragma once

#include <callfit/setting/setting.hpp>
#include <io/json_part.hpp>

#include <vector>

namespace callfit {

/// Brings values to a sum of 1; adds a fault at `part` when they miss it by more than rounding.
void settle_shares(const std::vector<double*>& shares, const Part& part);

YardPmf pmf_from(const Part& part);

/// A pmf of own yard lines: a fault unless it lies within 1 to 99.
YardPmf own_yards_from(const Part& part);

GainPopulation gain_from(const Part& part);

/// Shifts from the optional keys "rates" and "gains".
Shifts shifts_from(const Part& part);

/// Families and kinds from the optional keys of those names; unknown families are faults.
FamilyFilter filter_from(const Part& part, const std::vector<FamilyPopulation>& families);

SituationRule rule_at(const Part& part, std::string_view key);

/// The parts of a setting, each in the file named after it.
std::vector<FamilyPopulation> families_from(const Part& families);
std::vector<CellPopulation> cells_from(const Part& cells,
                                       const std::vector<FamilyPopulation>& families);
void read_game(const Part& document, Setting& setting);

}  // namespace callfit

// How alike two people charted: as text for a terminal (100 columns), and its parts.
#pragma once

#include <callfit/chart/agreement.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

using TableCells =
    std::vector<std::vector<std::string>>;  ///< rows of a table, the first one its heads

/// A word for a kappa: poor below 0, slight to 0.20, fair to 0.40, moderate to 0.60, substantial to
/// 0.80, almost perfect above (Landis & Koch 1977, Biometrics 33:159-174; cut-offs from memory).
std::string_view kappa_word(double kappa);

/// Lines end where a terminal's do.
inline constexpr std::string_view kappa_meaning =
    "Kappa: agreement beyond chance, 1 is full. Air yards are compared as short, intermediate or\n"
    "deep, evaded as none or some.";
inline constexpr std::string_view effects_head =
    "What it does to the rates, counted over the same snaps";

/// "63 snaps in both, 0 only in A, 1 only in B."
std::string pairing_words(const Agreement& result);
/// A row a column that either of them charted: how often alike, kappa and its 90% interval.
TableCells column_cells(const Agreement& result);
/// A row a rate: what each of the two counts, and by how much they differ.
TableCells effect_cells(const Agreement& result);

/// How many rows were paired, the columns with kappa and its 90% interval, what the difference does
/// to the counted rates, and at most `rows` of the rows that disagree.
std::string agreement_text(const Agreement& result, const Chart& first, const Chart& second,
                           std::size_t rows);

}  // namespace callfit

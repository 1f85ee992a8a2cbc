// How alike two people charted, as text for a terminal (100 columns).
#pragma once

#include <callfit/chart/agreement.hpp>

#include <cstddef>
#include <string>
#include <string_view>

namespace callfit {

/// A word for a kappa: poor below 0, slight to 0.20, fair to 0.40, moderate to 0.60, substantial to
/// 0.80, almost perfect above (Landis & Koch 1977, Biometrics 33:159-174; cut-offs from memory).
std::string_view kappa_word(double kappa);

/// How many rows were paired, the columns with kappa and its 90% interval, what the difference does
/// to the counted rates, and at most `rows` of the rows that disagree.
std::string agreement_text(const Agreement& result, const Chart& first, const Chart& second,
                           std::size_t rows);

}  // namespace callfit

// Season totals, from CSV. docs/formats.md describes the columns.
#pragma once

#include <callfit/profile/around.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Totals of seasons, and where they were given.
struct SeasonTable {
  std::vector<SeasonTotals> seasons;
  std::string source;
  std::vector<std::size_t> lines;  ///< one a season
};

/// Throws one InputError with every row that contradicts itself or says too little.
SeasonTable parse_season_totals(std::string_view text, const std::string& source);

}  // namespace callfit

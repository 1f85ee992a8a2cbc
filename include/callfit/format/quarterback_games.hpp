// Tables of what quarterbacks did, a row a game or a season. docs/formats.md describes the columns.
#pragma once

#include <callfit/validate/quarterbacks.hpp>
#include <callfit/validate/season_points.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Games from a CSV text; columns that are not used may be there. `source` names the text in
/// messages. Throws InputError as CsvCutter does, with the columns that are missing, or with every
/// row whose counts are unreadable or impossible (more completions than attempts) or whose game
/// stands there twice.
std::vector<QuarterbackGame> parse_quarterback_games(std::string_view text,
                                                     const std::string& source);

/// Seasons likewise; no season of one man stands there twice.
std::vector<QuarterbackSeason> parse_quarterback_seasons(std::string_view text,
                                                         const std::string& source);

}  // namespace callfit

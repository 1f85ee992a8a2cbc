// What a case tells around one quarterback's charts: moves, and totals of his seasons.
#pragma once

#include <callfit/chart/snap.hpp>
#include <callfit/format/season_totals.hpp>
#include <callfit/profile/around.hpp>
#include <callfit/setting/setting.hpp>
#include <format/part.hpp>

#include <functional>
#include <vector>

namespace callfit {

/// What reads season totals that the case names, or holds as a table.
using ReadSeasons = std::function<SeasonTable(const Part& part)>;

/// The keys "moves" and "season_totals" of a quarterback. Faults against charts and setting are
/// told where each stands; charts and setting must be sound.
std::vector<Move> moves_from(Fields& fields, const std::vector<Chart>& charts,
                             const Setting& setting);
std::vector<SeasonTotals> seasons_from(Fields& fields, const std::vector<Chart>& charts,
                                       const Setting& setting, const ReadSeasons& read_table);

}  // namespace callfit

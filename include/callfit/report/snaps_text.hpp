// The snaps behind a number as words: sentences, and rows of cells for tables and pages.
#pragma once

#include <callfit/ask/answer.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace callfit {

/// "Net points a game, A in S: +0.21 (-0.90 to +1.40)".
std::string snaps_head(const SnapsAnswer& answer);

/// From what to what his tape moved it, and what that is made of; where there are no charts, or
/// no move is told, why.
std::string snaps_way(const SnapsAnswer& answer);

/// "12 rows are not counted: no throw 9, a foul wiped it out 3."; empty where all are.
std::string snaps_left_out(const SnapsAnswer& answer);

/// "All 46 rows"; "12 more rows are in the answer as JSON." where `shown` of them are told.
std::string snaps_rows_head(const SnapsAnswer& answer);
std::string snaps_more(const SnapsAnswer& answer, std::size_t shown);

/// What the cells of a row are.
std::vector<std::string> snap_heads(const SnapsAnswer& answer);
std::vector<std::string> snap_cells(const SnapsAnswer& answer, const SnapRow& row);

/// All of it for a terminal. Of results and family counts the rows that moved them most, of rates
/// and gains every row that counts.
std::string snaps_text(const SnapsAnswer& answer);

/// Every number that rests on snaps, one a line.
std::string snap_numbers_text(const std::vector<SnapNumber>& numbers);

}  // namespace callfit

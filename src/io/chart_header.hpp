// Which field of a row holds which column of a chart.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/chart/columns.hpp>
#include <callfit/io/csv.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace callfit {

/// Lower case, surrounding blanks cut, inner spaces and hyphens as underscores.
std::string plain_word(std::string_view text);

/// Field index of each column, nullopt where the chart has none.
using ColumnPlaces = std::array<std::optional<std::size_t>, column_count>;

/// Reads the header. Columns named twice or missing although needed go to `errors`, unknown ones
/// to `notices`.
ColumnPlaces column_places(const CsvTable& table, Findings& errors, Findings& notices);

}  // namespace callfit

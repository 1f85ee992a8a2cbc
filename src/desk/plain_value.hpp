// Values of a chart as a page shows them.
#pragma once

#include <callfit/base/names.hpp>
#include <callfit/chart/columns.hpp>
#include <format/chart_header.hpp>

#include <string>

namespace callfit::desk {

inline std::string plain_value(ChartColumn column, const std::string& value) {
  return kind_of(word(column)) == ColumnKind::word ? plain(value) : value;
}

}  // namespace callfit::desk

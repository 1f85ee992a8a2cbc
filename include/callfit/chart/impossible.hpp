// Rows that cannot have happened on a football field.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/chart/columns.hpp>
#include <callfit/chart/snap.hpp>

#include <string>

namespace callfit {

/// Everything about the snap that cannot be true, one finding each, placed at `source` and the
/// snap's line. Columns in `unreadable` hold no trusted value; rules that read them are skipped.
Findings impossible(const Snap& snap, const std::string& source, const ColumnSet& unreadable = {});

}  // namespace callfit

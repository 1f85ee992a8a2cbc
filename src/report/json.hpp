// Results as JSON values; docs/results.md describes them.
#pragma once

#include <callfit/report/reports.hpp>

#include <nlohmann/json_fwd.hpp>

namespace callfit {

using Json = nlohmann::ordered_json;

Json to_json(const Interval& interval);
Json to_json(const UncertainValue& value);
Json to_json(const DriveValues& values);
Json to_json(const Difference& difference);
Json to_json(const Worth& worth);
Json fit_json(const FitReport& report, const BoundScheme& scheme, const Setting& setting);
Json drives_json(const DrivesReport& report, const Scheme& scheme);
Json comparison_json(const ComparisonReport& report);

}  // namespace callfit

// Results about the tape as JSON values; docs/results.md describes them.
#pragma once

#include "report/json.hpp"

#include <callfit/report/tape_reports.hpp>

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace callfit {

Json charting_json(const ChartingAdvice& advice, const Setting& setting);
Json trend_json(const std::vector<TrendStep>& steps, const std::vector<Followed>& followed,
                const Setting& setting);
Json population_json(const PopulationFit& fit, const Setting& setting);

/// The setting with the fitted rates laid over it, as a callfit-setting/1 document that names
/// `based_on` and holds only what is new.
Json fitted_setting(const PopulationFit& fit, const Setting& setting, const std::string& id,
                    const std::string& based_on);

}  // namespace callfit

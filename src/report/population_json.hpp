#pragma once

#include "report/json.hpp"

#include <callfit/profile/population_fit.hpp>

#include <string>

namespace callfit {

/// What population charts show; docs/results.md describes it.
Json population_json(const PopulationFit& fit, const Setting& setting);

/// The setting with the fitted rates laid over it, as a callfit-setting/1 document that names
/// `based_on` and holds only what is new.
Json fitted_setting(const PopulationFit& fit, const Setting& setting, const std::string& id,
                    const std::string& based_on);

}  // namespace callfit

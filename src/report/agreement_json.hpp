#pragma once

#include <callfit/chart/agreement.hpp>

#include <nlohmann/json_fwd.hpp>

namespace callfit {

/// How alike two people charted; docs/results.md describes it.
nlohmann::ordered_json agreement_json(const Agreement& result, const Chart& first,
                                      const Chart& second);

}  // namespace callfit

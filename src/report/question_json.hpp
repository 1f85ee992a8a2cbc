// Answers to questions as JSON values; docs/results.md describes them.
#pragma once

#include "report/json.hpp"

#include <callfit/report/question_reports.hpp>

namespace callfit {

Json whatif_json(const WhatIf& result);
Json sweep_json(const Sweep& result);
Json grid_json(const SweepGrid& result);
Json levers_json(const std::vector<LeverValue>& levers);
Json break_even_json(const BreakEven& result);
Json package_json(const PackageResult& result, const Package& package);
Json tailored_json(const Tailored& result, const TailorLimits& limits);
Json brief_json(const Brief& brief);
Json agreement_json(const WeightAgreement& agreement);
Json knobs_json(const Question& question);

}  // namespace callfit

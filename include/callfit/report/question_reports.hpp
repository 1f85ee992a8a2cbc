// Answers to questions as text for a terminal (100 columns).
#pragma once

#include <callfit/ask/break_even.hpp>
#include <callfit/ask/brief.hpp>
#include <callfit/ask/levers.hpp>
#include <callfit/ask/package.hpp>
#include <callfit/ask/point_weights.hpp>
#include <callfit/ask/tailor.hpp>
#include <callfit/ask/whatif.hpp>

#include <string>
#include <vector>

namespace callfit {

/// A knob's value with its unit: "29%", "7.2 yd", "1.50".
std::string knob_value(KnobUnit unit, double value);

/// "net points a game rise by 1.2 (90% interval +0.4 to +2.1)", or that they cannot be told to
/// move: never more than the interval allows.
std::string change_claim(const UncertainValue& change, const std::string& what);

std::string whatif_text(const WhatIf& result, const std::string& player, const std::string& scheme);
std::string sweep_text(const Sweep& result, const std::string& player, const std::string& scheme);
std::string grid_text(const SweepGrid& result, const std::string& player,
                      const std::string& scheme);

/// The `most` largest levers.
std::string levers_text(const std::vector<LeverValue>& levers, const std::string& player,
                        const std::string& scheme, std::size_t most);

std::string break_even_text(const BreakEven& result, const std::string& first,
                            const std::string& second);

std::string package_text(const PackageResult& result, const Package& package,
                         const std::string& player, const Scheme& scheme);

std::string tailor_text(const Tailored& result, const TailorLimits& limits,
                        const std::string& player, const std::string& scheme, double drives);

/// Half a page in plain English, as Markdown or wrapped plain text.
std::string brief_text(const Brief& brief, bool markdown);

/// How two ways to weigh demands order quarterbacks of the setting.
std::string weights_text(const BoundScheme& own, const BoundScheme& by_points,
                         const WeightAgreement& agreement);

/// Every knob of a question with its value, one a line.
std::string knobs_text(const Question& question);

}  // namespace callfit

// An invented league whose spreads and loadings have the size of measured ones, for tests.
#pragma once

#include <callfit/chart/snap.hpp>
#include <callfit/population/evidence.hpp>
#include <callfit/population/population.hpp>

namespace callfit::testing {

/// Ten traits on three factors, rates and yards after the catch of seven pass families, two levels
/// below its own ("college", "high_school").
Population league();

/// How many of a family's rate.
void count(Evidence& evidence, const Population& population, const std::string& quantity,
           double made, double of);

/// Every rate and every yards after the catch of the demo's new starter, by game and opponent.
Evidence new_starter(const Population& population);

}  // namespace callfit::testing

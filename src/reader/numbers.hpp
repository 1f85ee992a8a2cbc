// The few numbers that a page shows beside its words.
#pragma once

#include <callfit/reader/reader.hpp>
#include <callfit/telling/fit_scene.hpp>

#include <string>
#include <vector>

namespace callfit {

/// Place, net points against the other man with the odds, the verdict on each family; the same rows
/// in the same order for every stand of a case. `began`, the analyst's view, sets the strips'
/// scales.
std::vector<Shown::Row> reader_rows(const FitScene& scene, const FitScene& began);

/// What a stand's changes do, in sentences.
std::string reader_effect(Study& study, const Stand& stand);

}  // namespace callfit

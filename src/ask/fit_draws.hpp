// D^2 of every draw, and its place among the setting's quarterbacks.
#pragma once

#include <ask/sample.hpp>
#include <callfit/fit/fit.hpp>

#include <vector>

namespace callfit::ask {

using Column = std::vector<double>;

/// What the scheme's demands find in a sample. Columns hold one value a draw.
struct FitDraws {
  Column distance;                  ///< D^2
  std::vector<double> mean_part;    ///< of each demand; they add up to the mean of `distance`
  std::vector<Column> family_part;  ///< of each family of the scheme; they add up to `distance`
};

/// Measures of the demands, columns indexed like Scheme::demands.
std::vector<Column> measures_of(const Sample& sample, const BoundScheme& bound);

/// From those measures; shortfalls, weights and correlations as in fit_of().
FitDraws fit_draws(const std::vector<Column>& measures, const BoundScheme& bound,
                   std::size_t draws);

/// For each distance: of 100 of the others, how many have a larger one, ties counting half.
/// `others` sorted.
Column places_among(const Column& distance, const Column& others);

}  // namespace callfit::ask

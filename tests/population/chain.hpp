// A long Markov chain over everything that a quarterback's evidence leaves open, written from the
// definitions in population.hpp and evidence.hpp alone.
#pragma once

#include <callfit/population/evidence.hpp>
#include <callfit/population/population.hpp>

#include <cstddef>
#include <cstdint>
#include <vector>

namespace callfit::testing {

/// Of one quantity's slope u + own.
struct Sampled {
  double mean = 0, sd = 0, low = 0, high = 0;  ///< low and high: 5% and 95% points
  double error = 0;                            ///< standard error of the mean, by batch means
  double with_first = 0;                       ///< correlation with the population's first quantity
};

/// Elliptical slice sampling (Murray, Adams & MacKay 2010) of independent standard normals; the
/// first tenth of the steps is thrown away.
std::vector<Sampled> sample(const Population& population, const Evidence& evidence,
                            std::size_t steps, std::uint64_t seed = 1);

}  // namespace callfit::testing

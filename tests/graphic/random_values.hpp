// Random values for every picture: many and few rows, long names, other scripts, no snaps.
#pragma once

#include <callfit/base/random.hpp>

#include "samples.hpp"

namespace callfit {

/// `index` picks the picture's values; equal seeds give equal pictures.
FitPicture random_fit(std::uint64_t seed, std::uint64_t index);
std::vector<Panel> random_panels(std::uint64_t seed, std::uint64_t index, const Wording& wording);
Dress random_dress(std::uint64_t seed, std::uint64_t index, Frame frame);

}  // namespace callfit

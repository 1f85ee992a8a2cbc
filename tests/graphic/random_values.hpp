// Random answers with hostile names, for the tests of layout.
#pragma once

#include "samples.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace callfit {

FitAnswer random_fit(std::uint64_t seed, std::uint64_t index);
std::optional<DifferenceAnswer> random_difference(std::uint64_t seed, std::uint64_t index);
std::vector<Panel> random_panels(std::uint64_t seed, std::uint64_t index, const Wording& wording);
Dress random_dress(std::uint64_t seed, std::uint64_t index, Frame frame);

}  // namespace callfit

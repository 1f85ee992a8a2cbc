// The reverse of chances_of().
#pragma once

#include <callfit/drive/adjoint.hpp>
#include <drive/chances.hpp>

#include <array>

namespace callfit::drive {

/// Adds to each `out` the derivatives by the player's rates of a quantity whose derivatives by the
/// play's chances are `by`. Where a chance is capped (completion above 1 - interception), the cap
/// carries the derivative.
void add_chances_gradient(const Play& play, const Player& player, const Setting& setting,
                          const std::array<Chances, 2>& by,
                          const std::array<FamilyGradient*, 2>& out);

}  // namespace callfit::drive

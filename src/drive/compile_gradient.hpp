// The reverse of compile(): derivatives by a table's numbers back to player and calls.
#pragma once

#include <callfit/drive/adjoint.hpp>
#include <drive/played_parts.hpp>
#include <drive/table_gradient.hpp>

#include <cstddef>
#include <span>

namespace callfit::drive {

/// What derivatives are asked by.
enum class By { all, calls };

/// `by` holds one TableGradient a quality class, of those from `first_class` on; `parts` all of
/// their parts that the plan has, played by `player`. A value is the sum of the tables' numbers
/// times their derivatives, over those classes, bad snaps left out.
PointGradients compile_gradient(const Plan& plan, const Player& player, const PlayedParts& parts,
                                std::span<const TableGradient> by, By what = By::all,
                                std::size_t first_class = 0);

}  // namespace callfit::drive

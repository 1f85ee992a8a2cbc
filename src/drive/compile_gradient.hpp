// The reverse of compile(): derivatives by a table's numbers back to player and calls.
#pragma once

#include <callfit/drive/adjoint.hpp>
#include <drive/played_parts.hpp>
#include <drive/table_gradient.hpp>

#include <vector>

namespace callfit::drive {

/// What derivatives are asked by.
enum class By { all, calls };

/// `by` holds one TableGradient a quality class; `parts` all those of the plan, played by `player`.
/// A value is the sum of the table's numbers times their derivatives, over all classes, bad snaps
/// left out.
PointGradients compile_gradient(const Plan& plan, const Player& player, const PlayedParts& parts,
                                const std::vector<TableGradient>& by, By what = By::all);

}  // namespace callfit::drive

// The reverse of compile(): derivatives by a table's numbers back to player and calls.
#pragma once

#include <callfit/drive/adjoint.hpp>
#include <drive/table_gradient.hpp>

#include <vector>

namespace callfit::drive {

/// `by` holds one TableGradient a quality class. The plan knows its calls (Plan::calls).
DriveGradient compile_gradient(const Plan& plan, const Player& player,
                               const std::vector<TableGradient>& by);

}  // namespace callfit::drive

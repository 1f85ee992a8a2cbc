// Where families are called, put together from the contexts that plays came up in.
#pragma once

#include <callfit/drive/adjoint.hpp>
#include <drive/plan.hpp>

#include <vector>

namespace callfit::drive {

/// `plays` by Plan::contexts; shells are met as the setting's rules say.
std::vector<CallPlace> call_places(const Plan& plan, const std::vector<double>& plays);

}  // namespace callfit::drive

// What quarterbacks and schemes of a case can be called in a request.
#pragma once

#include <callfit/ask/case.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace callfit {

/// Names of one thing, the best one first.
using Names = std::vector<std::string>;

std::vector<Names> quarterback_names(const Case& about);
std::vector<Names> scheme_names(const Case& about);  ///< id, then name

/// Places, from 0, of what is called so.
std::vector<std::size_t> places_called(const std::vector<Names>& names, const std::string& name);

}  // namespace callfit

// Men of one name in one question.
#pragma once

#include <callfit/ask/case.hpp>

#include <string>
#include <vector>

namespace callfit {

/// What the quarterbacks are called in answers, in their order: those who share a name have their
/// number behind it, as in "Brook (2)".
std::vector<std::string> shown_names(const Case& about);

/// The names that several have, each once, in their order.
std::vector<std::string> shared_names(const Case& about);

}  // namespace callfit

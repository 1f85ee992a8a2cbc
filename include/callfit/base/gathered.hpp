// Findings that say the same of many lines, as one.
#pragma once

#include <callfit/base/finding.hpp>

namespace callfit {

/// One finding for all that differ only in their line, with their number, where the first of them
/// stands.
Findings gathered(const Findings& findings);

}  // namespace callfit

// The demo's case, read as the program reads it, with fewer draws where a test need not be sharp.
#pragma once

#include <callfit/ask/case.hpp>

namespace callfit::testing {

Case demo_case(std::size_t draws = 1000);

}  // namespace callfit::testing

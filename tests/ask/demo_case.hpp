// The demo's case, read as the program reads it, with fewer draws where a test need not be sharp.
#pragma once

#include <callfit/ask/case.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/case.hpp>

#include <cstddef>

namespace callfit::testing {

/// Shipped data by name, else files beside the case.
CaseTexts shipped_texts(Files& disk);

Case demo_case(std::size_t draws = 1000);

}  // namespace callfit::testing

// What the desk, the charting of a tape and the pages read.
#pragma once

#include "loaders.hpp"

namespace callfit::fuzz {

std::vector<Loader> desk_loaders();

}  // namespace callfit::fuzz

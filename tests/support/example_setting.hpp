// A small made-up setting for tests: one pass, one quarterback run and one handoff family. Its
// numbers are round and describe nobody.
#pragma once

#include <callfit/setting/setting.hpp>

namespace callfit::testing {

inline constexpr std::size_t pass_family = 0, run_family = 1, handoff_family = 2;

/// With shifts by shell, platform, pressure and depth for completion and sack (`with_cells`) and
/// levels "pro" (weight 1, no shift), "college" (weight 1, completion +0.3) and "high_school"
/// (weight 0.4, completion +0.6).
Setting example_setting(bool with_cells = true);

}  // namespace callfit::testing

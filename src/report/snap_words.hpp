// One charted snap in words, as all texts say it.
#pragma once

#include <callfit/ask/answer.hpp>

#include <string>

namespace callfit {

std::string snap_result_text(const Snap& snap);  ///< "complete 68", "intercepted"
std::string snap_down_text(const SnapRow& row);  ///< "2 and 10 at 68"

}  // namespace callfit

// The part "page" of a case.
#pragma once

#include <callfit/format/page_handles.hpp>
#include <format/part.hpp>

#include <vector>

namespace callfit {

/// {"handles": [{"path", "words", "from", "to", "count"}, ...]}
std::vector<PageHandle> page_part(const Part& part);

/// The list of handles alone, and the same as JSON that reads back.
std::vector<PageHandle> handles_from(const Part& part);
nlohmann::ordered_json handles_json(const std::vector<PageHandle>& handles);

}  // namespace callfit

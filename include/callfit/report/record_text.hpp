// How often verdicts such as an answer's came true, in a sentence.
#pragma once

#include <callfit/format/record.hpp>

#include <string>

namespace callfit {

/// "Record: ..." as one paragraph, not wrapped.
std::string record_text(const Record& record);

}  // namespace callfit

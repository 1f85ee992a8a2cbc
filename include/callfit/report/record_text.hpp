// How often verdicts such as an answer's came true, in a sentence.
#pragma once

#include <callfit/ask/answer.hpp>
#include <callfit/ask/case.hpp>

#include <string>

namespace callfit {

/// "Record: ..." as one paragraph, not wrapped.
std::string record_text(const Record& record);

/// The case's record where the answer holds two men against each other; else empty.
std::string record_beside(const Answer& answer, const Case& about);

}  // namespace callfit

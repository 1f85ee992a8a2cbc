// The door for pages and programs: a question as JSON in, an answer as JSON out. docs/results.md
// describes both, docs/formats/callfit-answer-1.schema.json the answer.
#pragma once

#include <callfit/ask/study.hpp>
#include <callfit/base/finding.hpp>

#include <cstddef>
#include <string>
#include <string_view>

namespace callfit {

/// A longer text is refused before it is read, bytes; for its depth see callfit/format/json.hpp.
inline constexpr std::size_t longest_request = std::size_t{1} << 20;

/// A request such as {"kind": "fit", "quarterback": "A", "scheme": "balanced"}. Quarterbacks and
/// schemes go by name or by place in the case, the first being 1; what is left out is the default.
/// Throws one InputError with everything that is wrong, each finding with the JSON pointer.
Request request_from_json(std::string_view text, const Case& about);

/// The request with everything said that was left out, as JSON text that reads back the same.
std::string request_to_json(const Request& request, const Case& about);

/// The document callfit-answer/1. Throws std::logic_error where a number is NaN or infinite.
std::string answer_document(const Request& request, const Answer& answer, const Case& about);

/// The document callfit-error/1: {"format", "findings": [{"path", "what", "mend"}]}.
std::string error_document(const InputError& error);

/// Reads the request, asks the study, writes the document. Throws InputError.
std::string answer_json(Study& study, std::string_view request_text, const Progress& progress = {});

/// The same; bad requests come back as the document callfit-error/1.
std::string answer_json_or_error(Study& study, std::string_view request_text,
                                 const Progress& progress = {});

}  // namespace callfit

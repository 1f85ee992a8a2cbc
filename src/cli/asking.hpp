// Requests to a study, and answers as text and JSON.
#pragma once

#include <callfit/ask/study.hpp>
#include <callfit/base/parallel.hpp>

#include <string>
#include <vector>

namespace callfit::cli {

struct Asked {
  std::vector<Answer> answers;
  std::string text;  ///< of all, a blank line apart, with the cautions
  std::string json;  ///< one document of the door; several as "callfit-answers/1"
};

/// Everything goes through the door that pages use (report/door.hpp); the text comes from the same
/// answers.
Asked ask_all(Study& study, const std::vector<Request>& requests, const Progress& progress);

}  // namespace callfit::cli

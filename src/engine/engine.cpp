// The core in a reader's browser: texts in, texts out. One engine holds one case at one pace.
#include <callfit/ask/study.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/reader/reader.hpp>
#include <callfit/report/door.hpp>

#include <memory>
#include <string>

namespace callfit::engine {
namespace {

// The page calls from outside and has nobody to hand objects to.
std::unique_ptr<Reader> reader;
std::string said;  // lives until the next call, so that the page can copy it

const char* say(std::string text) {
  said = std::move(text);
  return said.c_str();
}

const char* open(const char* page_case, bool following) {
  try {
    reader = std::make_unique<Reader>(parse_page_case(page_case, "page"), 1,
                                      following ? Pace::following : Pace::settled);
    return say(R"({"format": "callfit-opened/1"})");
  } catch (const InputError& error) {
    return say(error_document(error));
  }
}

}  // namespace
}  // namespace callfit::engine

extern "C" {

/// Takes a callfit-page/1 text. Answers callfit-opened/1 or callfit-error/1.
const char* callfit_open(const char* page_case, int following) {
  return callfit::engine::open(page_case, following != 0);
}

/// What Reader::answer() takes and gives.
const char* callfit_show(const char* request) {
  return callfit::engine::say(callfit::engine::reader->answer(request));
}

/// What answer_json_or_error() takes and gives.
const char* callfit_ask(const char* request) {
  return callfit::engine::say(
      callfit::answer_json_or_error(callfit::engine::reader->study(), request));
}
}

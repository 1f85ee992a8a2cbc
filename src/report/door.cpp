#include <callfit/report/door.hpp>

namespace callfit {

std::string answer_json(Study& study, std::string_view request_text, const Progress& progress) {
  const Request request = request_from_json(request_text, study.about());
  return answer_document(request, study.answer(request, progress), study.about());
}

std::string answer_json_or_error(Study& study, std::string_view request_text,
                                 const Progress& progress) {
  try {
    return answer_json(study, request_text, progress);
  } catch (const InputError& error) {
    return error_document(error);
  }
}

}  // namespace callfit

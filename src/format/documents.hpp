// What parse_setting() and its like make of a text, of documents that are parsed already: those
// that another document holds are not written out to be read once more.
#pragma once

#include <callfit/format/case.hpp>
#include <callfit/scheme/scheme.hpp>

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace callfit {

/// The document laid over those that it is based on. Throws InputError.
nlohmann::json merged_setting(nlohmann::json document, const std::string& source,
                              const Beside& beside);

Setting setting_of(nlohmann::json document, const std::string& source, const Beside& beside);
Scheme scheme_of(const nlohmann::json& document, const std::string& source, const Beside& beside);
Profile profile_of(const nlohmann::json& document, const std::string& source,
                   const Setting& setting);
Case case_of(const nlohmann::json& document, const std::string& source, const CaseTexts& texts,
             const Beside& beside, Findings& notices);

}  // namespace callfit

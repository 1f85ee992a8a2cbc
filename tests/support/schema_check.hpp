// Holds a JSON document against a JSON Schema (draft 7) with the keywords that the project's
// schemas use. A keyword that is not known is a fault, so that nothing goes unchecked.
#pragma once

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace callfit::test {

/// "pointer: what is wrong", one a fault; empty where the document fits.
std::vector<std::string> schema_faults(const nlohmann::json& document,
                                       const nlohmann::json& schema);

}  // namespace callfit::test

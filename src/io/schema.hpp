// Holds JSON documents against the shipped schemas.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

namespace callfit {

/// Throws InputError unless the document is of format `kind`/1 and fits the schema `kind`-1; each
/// finding gives the JSON pointer, what is wrong and, from the schema, what would be right.
void validate(const nlohmann::json& document, std::string_view kind, const std::string& source);

}  // namespace callfit

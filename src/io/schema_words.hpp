// Says in words why a value does not fit its schema, and what would.
#pragma once

#include <io/json_text.hpp>

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

namespace callfit {

/// The value as JSON, cut after some 40 characters.
std::string shown(const nlohmann::json& value);

/// Adds what is wrong with the value at `tokens` (keys and indices from the root) of a document
/// that a validator refused there. `deeper` says that something inside it is refused too; then a
/// choice of kinds is not worth a word of its own.
void describe(const nlohmann::json& document, const nlohmann::json& schema,
              const std::vector<std::string>& tokens, bool deeper, Faults& faults);

}  // namespace callfit

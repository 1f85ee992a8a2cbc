// The part of JSON Schema (draft 7) that docs/formats uses, enough to walk a document along it.
#pragma once

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace callfit::testing {

/// A value of a document and what the schema says of it.
struct Spot {
  nlohmann::json::json_pointer at;       ///< into the document
  std::string path;                      ///< into the schema; the same for all values it describes
  const nlohmann::json* node = nullptr;  ///< with $ref followed and the branch of anyOf chosen
  std::string want;                      ///< what the schema asks for, in words

  bool is_kind(const std::string& name) const {
    return node->contains("type") && node->at("type") == name;
  }
  bool is_object() const { return is_kind("object"); }
  bool is_list() const { return is_kind("array"); }
  bool has_own_keys() const {
    return node->contains("additionalProperties") && node->at("additionalProperties") == false;
  }
};

/// Every value of the document, outer ones first. A value that the schema does not describe, or
/// describes as another kind, has a null `node`.
std::vector<Spot> spots_of(const nlohmann::json& document, const nlohmann::json& schema);

/// Paths of every value that the schema describes, as in Spot::path.
std::vector<std::string> paths_of(const nlohmann::json& schema);

}  // namespace callfit::testing

#include "schema_check.hpp"

#include <algorithm>
#include <array>
#include <regex>
#include <string_view>

namespace callfit::test {
namespace {

using nlohmann::json;

bool is_type(const json& value, const std::string& type) {
  if (type == "number") return value.is_number();
  if (type == "integer") return value.is_number_integer();
  if (type == "string") return value.is_string();
  if (type == "boolean") return value.is_boolean();
  if (type == "array") return value.is_array();
  return type == "object" && value.is_object();
}

class Check {
 public:
  explicit Check(const json& root) : root_(root) {}

  std::vector<std::string> faults;

  void value(const json& value, const json& schema, const std::string& at) {
    if (schema.contains("$ref")) {
      const auto target = schema["$ref"].get<std::string>();
      this->value(value, root_.at(json::json_pointer(target.substr(1))), at);
      return;
    }
    known_keywords(schema, at);
    plain(value, schema, at);
    if (value.is_object()) object(value, schema, at);
    if (value.is_array()) array(value, schema, at);
    if (schema.contains("oneOf")) one_of(value, schema["oneOf"], at);
  }

 private:
  void fault(const std::string& at, const std::string& what) { faults.push_back(at + ": " + what); }

  void known_keywords(const json& schema, const std::string& at) {
    constexpr auto known = std::to_array<std::string_view>(
        {"$schema", "title", "description", "definitions", "type", "const", "enum", "required",
         "properties", "additionalProperties", "items", "minItems", "maxItems", "minimum",
         "maximum", "minLength", "maxLength", "oneOf", "patternProperties"});
    for (const auto& [key, ignored] : schema.items())
      if (std::find(known.begin(), known.end(), key) == known.end())
        fault(at, "the schema has an unknown keyword " + key);
  }

  // In bytes: of what is not ASCII the schemas' limits are far off.
  void length(std::size_t size, const json& schema, const std::string& at) {
    if (schema.contains("minLength") && size < schema["minLength"].get<std::size_t>())
      fault(at, "is too short");
    if (schema.contains("maxLength") && size > schema["maxLength"].get<std::size_t>())
      fault(at, "is too long");
  }

  void plain(const json& value, const json& schema, const std::string& at) {
    if (schema.contains("type") && !fits_type(value, schema["type"]))
      fault(at, "is not of type " + schema["type"].dump());
    if (value.is_string()) length(value.get<std::string>().size(), schema, at);
    if (schema.contains("const") && value != schema["const"])
      fault(at, "is not " + schema["const"].dump());
    if (schema.contains("enum")) {
      const json& words = schema["enum"];
      if (std::find(words.begin(), words.end(), value) == words.end())
        fault(at, value.dump() + " is none of " + words.dump());
    }
    if (!value.is_number()) return;
    if (schema.contains("minimum") && value < schema["minimum"]) fault(at, "is below the minimum");
    if (schema.contains("maximum") && value > schema["maximum"]) fault(at, "is above the maximum");
  }

  static bool fits_type(const json& value, const json& types) {
    if (types.is_string()) return is_type(value, types.get<std::string>());
    return std::any_of(types.begin(), types.end(),
                       [&](const json& type) { return is_type(value, type.get<std::string>()); });
  }

  void object(const json& value, const json& schema, const std::string& at) {
    for (const json& key : schema.value("required", json::array()))
      if (!value.contains(key.get<std::string>())) fault(at, "lacks " + key.dump());
    const json properties = schema.value("properties", json::object());
    const json others = schema.value("additionalProperties", json(true));
    for (const auto& [key, inside] : value.items()) {
      const std::string there = at + "/" + key;
      if (properties.contains(key))
        this->value(inside, properties[key], there);
      else if (const json* pattern = pattern_of(key, schema))
        this->value(inside, *pattern, there);
      else if (others.is_object())
        this->value(inside, others, there);
      else if (!others.get<bool>())
        fault(there, "is not described");
    }
  }

  static const json* pattern_of(const std::string& key, const json& schema) {
    if (!schema.contains("patternProperties")) return nullptr;
    for (const auto& [pattern, inside] : schema["patternProperties"].items())
      if (std::regex_search(key, std::regex(pattern))) return &inside;
    return nullptr;
  }

  void array(const json& value, const json& schema, const std::string& at) {
    if (value.size() < schema.value("minItems", std::size_t{0})) fault(at, "has too few items");
    if (schema.contains("maxItems") && value.size() > schema["maxItems"].get<std::size_t>())
      fault(at, "has too many items");
    if (!schema.contains("items")) return;
    for (std::size_t i = 0; i < value.size(); ++i)
      this->value(value[i], schema["items"], at + "/" + std::to_string(i));
  }

  // Where none fits, the faults of the nearest choice are told.
  void one_of(const json& value, const json& choices, const std::string& at) {
    std::size_t fitting = 0;
    std::vector<std::string> nearest;
    for (const json& choice : choices) {
      Check inside(root_);
      inside.value(value, choice, at);
      if (inside.faults.empty()) ++fitting;
      if (nearest.empty() || inside.faults.size() < nearest.size()) nearest = inside.faults;
    }
    if (fitting == 1) return;
    fault(at, "fits " + std::to_string(fitting) + " of the choices");
    if (fitting == 0) faults.insert(faults.end(), nearest.begin(), nearest.end());
  }

  const json& root_;
};

}  // namespace

std::vector<std::string> schema_faults(const json& document, const json& schema) {
  Check check(schema);
  check.value(document, schema, "");
  return check.faults;
}

}  // namespace callfit::test

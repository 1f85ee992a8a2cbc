#include <callfit/base/nearest.hpp>
#include <io/schema_words.hpp>

#include <nlohmann/json.hpp>

namespace callfit {
namespace {

using nlohmann::json;

const json& resolved(const json& node, const json& root) {
  if (!node.is_object() || !node.contains("$ref")) return node;
  const auto reference = node.at("$ref").get<std::string>();  // always local: "#/definitions/x"
  return root.at(json::json_pointer(reference.substr(1)));
}

const json* step(const json& node, const json& root, const std::string& token);

const json* step_into_choice(const json& node, const json& root, const std::string& token) {
  for (const json& branch : node.at("anyOf"))
    if (const json* found = step(branch, root, token)) return found;
  return nullptr;
}

/// The schema of an element of a value that `node` describes; nullptr when it says nothing.
const json* step(const json& unresolved, const json& root, const std::string& token) {
  const json& node = resolved(unresolved, root);
  if (!node.is_object()) return nullptr;
  if (node.contains("properties") && node.at("properties").contains(token))
    return &node.at("properties").at(token);
  if (node.contains("items")) return &node.at("items");
  if (node.contains("additionalProperties") && node.at("additionalProperties").is_object())
    return &node.at("additionalProperties");
  if (node.contains("anyOf")) return step_into_choice(node, root, token);
  return nullptr;
}

std::string type_words(const json& type) {
  if (!type.is_string()) return "another kind of value";
  const auto name = type.get<std::string>();
  if (name == "integer") return "a whole number";
  if (name == "string") return "a text in quotes";
  if (name == "boolean") return "true or false";
  if (name == "array") return "a list [...]";
  if (name == "object") return "an object {...}";
  return "a " + name;
}

std::string limits(const json& node) {
  const bool low = node.contains("minimum");
  const bool high = node.contains("maximum");
  std::string text;
  if (low && high)
    text = " from " + node.at("minimum").dump() + " to " + node.at("maximum").dump();
  else if (low)
    text = " of at least " + node.at("minimum").dump();
  else if (high)
    text = " of at most " + node.at("maximum").dump();
  if (node.contains("exclusiveMinimum")) text += " above " + node.at("exclusiveMinimum").dump();
  if (node.contains("exclusiveMaximum")) text += " below " + node.at("exclusiveMaximum").dump();
  return text;
}

std::vector<std::string> texts(const json& list) {
  std::vector<std::string> words;
  for (const json& entry : list)
    words.push_back(entry.is_string() ? entry.get<std::string>() : entry.dump());
  return words;
}

/// What the schema asks for, in words.
std::string wanted(const json& unresolved, const json& root) {
  // A description beside a $ref is the more specific one.
  if (unresolved.contains("description")) return unresolved.at("description").get<std::string>();
  const json& node = resolved(unresolved, root);
  if (node.contains("description")) return node.at("description").get<std::string>();
  if (node.contains("enum")) return either_of(texts(node.at("enum")));
  if (!node.contains("type")) return "another value";
  return type_words(node.at("type")) + limits(node);
}

std::vector<std::string> keys_of(const json& object) {
  std::vector<std::string> keys;
  for (const auto& [key, value] : object.items()) keys.push_back(key);
  return keys;
}

bool add_missing(const json& value, const json& node, const json& root, const std::string& pointer,
                 Faults& faults) {
  bool added = false;
  for (const json& key : node.value("required", json::array())) {
    if (value.contains(key)) continue;
    const auto name = key.get<std::string>();
    const json* inner = step(node, root, name);
    faults.add(child(pointer, name), "is missing",
               inner ? "give " + wanted(*inner, root) : "add it");
    added = true;
  }
  return added;
}

bool add_unknown(const json& value, const json& node, const std::string& pointer, Faults& faults) {
  if (node.value("additionalProperties", json(true)) != json(false)) return false;
  const json known = node.value("properties", json::object());
  bool added = false;
  for (const auto& [key, ignored] : value.items()) {
    if (known.contains(key)) continue;
    faults.add(child(pointer, key), "unknown key", suggest(key, keys_of(known)));
    added = true;
  }
  return added;
}

void add_value(const json& value, const json& unresolved, const json& root,
               const std::string& pointer, Faults& faults) {
  const json& node = resolved(unresolved, root);
  if (node.contains("enum") && value.is_string()) {
    const auto text = value.get<std::string>();
    faults.add(pointer, "unknown word " + shown(value), suggest(text, texts(node.at("enum"))));
    return;
  }
  faults.add(pointer, shown(value) + " does not fit here", "give " + wanted(unresolved, root));
}

}  // namespace

std::string shown(const json& value) {
  constexpr std::size_t most = 40;
  if (value.is_object()) return "an object";
  if (value.is_array()) return "a list of " + std::to_string(value.size());
  std::string text = value.dump();
  if (text.size() <= most) return text;
  std::size_t cut = most;
  while (cut > 0 && (static_cast<unsigned char>(text[cut]) & 0xC0U) == 0x80U) --cut;  // whole UTF-8
  return text.substr(0, cut) + "...";
}

void describe(const json& document, const json& schema, const std::vector<std::string>& tokens,
              bool deeper, Faults& faults) {
  const json* value = &document;
  const json* node = &schema;
  std::string pointer;
  for (const std::string& token : tokens) {
    value = value->is_array() ? &value->at(std::stoul(token)) : &value->at(token);
    pointer = child(pointer, token);
    if (node) node = step(*node, schema, token);
  }
  if (!node) {
    faults.add(pointer, shown(*value) + " does not fit here", "");
    return;
  }
  const json& rules = resolved(*node, schema);
  if (deeper && rules.contains("anyOf")) return;
  bool told = false;
  if (value->is_object()) {
    told = add_missing(*value, rules, schema, pointer, faults);
    told = add_unknown(*value, rules, pointer, faults) || told;
  }
  if (!told) add_value(*value, *node, schema, pointer, faults);
}

}  // namespace callfit

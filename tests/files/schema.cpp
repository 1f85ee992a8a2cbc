#include "schema.hpp"

#include <callfit/base/nearest.hpp>

#include <algorithm>
#include <set>

namespace callfit::testing {
namespace {

using nlohmann::json;

/// A node of a schema and the path to it.
struct Node {
  const json* node = nullptr;
  std::string path;

  Node step(const std::string& key) const { return {&node->at(key), path + "/" + key}; }
  Node branch(std::size_t index) const {
    const Node choice = step("anyOf");
    return {&choice.node->at(index), choice.path + "/" + std::to_string(index)};
  }
};

Node followed(Node node, const json& root) {
  while (node.node->contains("$ref")) {
    const std::string path = node.node->at("$ref").get<std::string>().substr(1);
    node = {&root.at(json::json_pointer(path)), path};
  }
  return node;
}

bool fits_kind(const json& value, const json& type) {
  if (type.is_array())
    return std::any_of(type.begin(), type.end(),
                       [&](const json& t) { return fits_kind(value, t); });
  if (type == "object") return value.is_object();
  if (type == "array") return value.is_array();
  if (type == "string") return value.is_string();
  if (type == "boolean") return value.is_boolean();
  if (type == "integer") return value.is_number_integer();
  return type == "number" && value.is_number();
}

bool fits(const json& value, const json& node) {
  return node.contains("enum") ? value.is_string() : fits_kind(value, node.at("type"));
}

Node chosen(Node node, const json& value, const json& root) {
  node = followed(node, root);
  if (!node.node->contains("anyOf")) return node;
  for (std::size_t i = 0; i < node.node->at("anyOf").size(); ++i) {
    const Node branch = followed(node.branch(i), root);
    if (fits(value, *branch.node)) return branch;
  }
  return node;
}

std::string type_words(const json& node) {
  if (!node.contains("type") || !node.at("type").is_string()) return "another value";
  const auto type = node.at("type").get<std::string>();
  if (type == "string") return "a text in quotes";
  if (type == "boolean") return "true or false";
  if (type == "array") return "a list [...]";
  if (type == "object") return "an object {...}";
  const std::string number = type == "integer" ? "a whole number" : "a number";
  if (node.contains("minimum") && node.contains("maximum"))
    return number + " from " + node.at("minimum").dump() + " to " + node.at("maximum").dump();
  if (node.contains("minimum")) return number + " of at least " + node.at("minimum").dump();
  return number;
}

std::string wanted(const Node& unresolved, const json& root) {
  // A description beside a $ref is the more specific one.
  if (unresolved.node->contains("description"))
    return unresolved.node->at("description").get<std::string>();
  const json& node = *followed(unresolved, root).node;
  if (node.contains("description")) return node.at("description").get<std::string>();
  if (node.contains("enum")) return either_of(node.at("enum").get<std::vector<std::string>>());
  return type_words(node);
}

class Walk {
 public:
  Walk(const json& root) : root_(root) {}

  void visit(const json& value, const Node& unresolved, const json::json_pointer& at) {
    const Node node = chosen(unresolved, value, root_);
    const bool known = node.node->contains("enum") || node.node->contains("type");
    const bool fit = known && fits(value, *node.node);
    spots.push_back({at, unresolved.path, fit ? node.node : nullptr, wanted(unresolved, root_)});
    if (!fit) return;
    if (value.is_array()) visit_items(value, node, at);
    if (value.is_object()) visit_entries(value, node, at);
  }

  std::vector<Spot> spots;

 private:
  void visit_items(const json& value, const Node& node, const json::json_pointer& at) {
    for (std::size_t i = 0; i < value.size(); ++i) visit(value[i], node.step("items"), at / i);
  }

  void visit_entries(const json& value, const Node& node, const json::json_pointer& at) {
    for (const auto& [key, entry] : value.items()) {
      if (node.node->contains("properties") && node.node->at("properties").contains(key))
        visit(entry, node.step("properties").step(key), at / key);
      else if (node.node->value("additionalProperties", json()).is_object())
        visit(entry, node.step("additionalProperties"), at / key);
      else
        spots.push_back({at / key, node.path + "/" + key, nullptr, ""});
    }
  }

  const json& root_;
};

void add_paths(const Node& unresolved, const json& root, std::set<std::string>& paths) {
  if (!paths.insert(unresolved.path).second) return;
  const Node node = followed(unresolved, root);
  if (node.path != unresolved.path && !paths.insert(node.path + "(followed)").second) return;
  if (node.node->contains("anyOf"))
    for (std::size_t i = 0; i < node.node->at("anyOf").size(); ++i) {
      const Node branch = node.branch(i);
      const Node inner = followed(branch, root);
      if (inner.node->contains("properties"))
        for (const auto& [key, ignored] : inner.node->at("properties").items())
          add_paths(inner.step("properties").step(key), root, paths);
    }
  if (node.node->contains("properties"))
    for (const auto& [key, ignored] : node.node->at("properties").items())
      add_paths(node.step("properties").step(key), root, paths);
  if (node.node->contains("items")) add_paths(node.step("items"), root, paths);
  if (node.node->value("additionalProperties", json()).is_object())
    add_paths(node.step("additionalProperties"), root, paths);
}

}  // namespace

std::vector<Spot> spots_of(const json& document, const json& schema) {
  Walk walk(schema);
  walk.visit(document, {&schema, ""}, json::json_pointer());
  return walk.spots;
}

std::vector<std::string> paths_of(const json& schema) {
  std::set<std::string> paths;
  add_paths({&schema, ""}, schema, paths);
  std::erase_if(paths, [](const std::string& path) { return path.ends_with("(followed)"); });
  return {paths.begin(), paths.end()};
}

}  // namespace callfit::testing

// A value of a JSON document together with its pointer, so that readers can say where.
#pragma once

#include <io/json_text.hpp>

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace callfit {

/// The document has been held against its schema before: keys that it requires are there.
struct Part {
  const nlohmann::json& value;
  std::string pointer;
  Faults& faults;

  Part at(std::string_view key) const {
    return {value.at(std::string(key)), child(pointer, key), faults};
  }
  Part item(std::size_t index) const { return {value.at(index), child(pointer, index), faults}; }
  bool has(std::string_view key) const { return value.contains(std::string(key)); }
  std::size_t size() const { return value.size(); }

  template <class Value>
  Value get(std::string_view key) const {
    return value.at(std::string(key)).get<Value>();
  }
  template <class Value>
  Value get(std::string_view key, Value fallback) const {
    return value.value(std::string(key), fallback);
  }
  double number(std::string_view key) const { return get<double>(key); }
  int integer(std::string_view key) const { return get<int>(key); }
  std::string text(std::string_view key) const { return get<std::string>(key); }

  void fault(const std::string& what, const std::string& mend) const {
    faults.add(pointer, what, mend);
  }
};

/// Calls `read(part, key)` for every entry of an object.
template <class Read>
void each_entry(const Part& object, Read read) {
  for (const auto& [key, ignored] : object.value.items()) read(object.at(key), key);
}

/// Calls `read(part)` for every element of a list.
template <class Read>
void each_item(const Part& list, Read read) {
  for (std::size_t i = 0; i < list.size(); ++i) read(list.item(i));
}

}  // namespace callfit

#include <callfit/format/json.hpp>
#include <format/json_text.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <set>
#include <vector>

namespace callfit {
namespace {

using nlohmann::json;

/// Follows the parser to name keys that stand twice, which JSON libraries silently merge.
class KeyWatch {
 public:
  explicit KeyWatch(Faults& faults) : faults_(faults) {}

  void see(json::parse_event_t event, const json& parsed) {
    using Event = json::parse_event_t;
    switch (event) {
      case Event::object_start:
      case Event::array_start:
        open_.push_back({event == Event::array_start, next_pointer(), {}, {}, 0});
        break;
      case Event::object_end:
      case Event::array_end:
        open_.pop_back();
        break;
      case Event::key:
        see_key(parsed.get_ref<const std::string&>());
        break;
      case Event::value:
        if (!open_.empty() && open_.back().is_array) ++open_.back().index;
        break;
    }
  }

 private:
  struct Container {
    bool is_array = false;
    std::string pointer;
    std::string key;
    std::set<std::string> keys;
    std::size_t index = 0;
  };

  std::string next_pointer() {
    if (open_.empty()) return {};
    Container& parent = open_.back();
    return parent.is_array ? child(parent.pointer, parent.index++)
                           : child(parent.pointer, parent.key);
  }

  void see_key(const std::string& key) {
    Container& object = open_.back();
    object.key = key;
    if (!object.keys.insert(key).second)
      faults_.add(child(object.pointer, key), "the key stands twice", "keep one of them");
  }

  Faults& faults_;
  std::vector<Container> open_;
};

[[noreturn]] void refuse_syntax(std::string_view text, const std::string& source,
                                const json::parse_error& error) {
  const std::size_t at = std::min(error.byte > 0 ? error.byte - 1 : 0, text.size());
  const std::string_view before = text.substr(0, at);
  const auto line = static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n')) + 1;
  const std::size_t column = at - (before.find_last_of('\n') + 1) + 1;
  std::string what = error.what();
  // The library's own prefix repeats the place: "[...] parse error at line 1, column 2: ...".
  const std::size_t reason = what.find(": ");
  if (reason != std::string::npos) what = what.substr(reason + 2);
  throw InputError(Finding{{source, line, "column " + std::to_string(column)},
                           "not valid JSON: " + what,
                           "look at the comma, quote or bracket just before"});
}

std::string escaped(std::string_view key) {
  std::string text;
  for (const char c : key) {
    if (c == '~')
      text += "~0";
    else if (c == '/')
      text += "~1";
    else
      text += c;
  }
  return text;
}

}  // namespace

std::string child(const std::string& pointer, std::string_view key) {
  return pointer + "/" + escaped(key);
}

std::string child(const std::string& pointer, std::size_t index) {
  return pointer + "/" + std::to_string(index);
}

json parse_json(std::string_view text, const std::string& source) {
  Faults faults(source);
  KeyWatch watch(faults);
  json document;
  try {
    document = json::parse(text, [&watch](int, json::parse_event_t event, json& parsed) {
      watch.see(event, parsed);
      return true;
    });
  } catch (const json::parse_error& error) {
    refuse_syntax(text, source, error);
  } catch (const json::out_of_range&) {
    throw InputError(Finding{{source, 0, ""}, "holds a number too large to read", ""});
  }
  faults.settle();
  return document;
}

bool Faults::none_at(const std::string& pointer) const {
  const std::string inside = pointer + "/";
  const auto next = pointers_.lower_bound(inside);
  return !pointers_.contains(pointer) && (next == pointers_.end() || !next->starts_with(inside));
}

bool is_json_text(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n\xef\xbb\xbf");
  return first != std::string_view::npos && (text[first] == '{' || text[first] == '[');
}

std::string format_of(std::string_view text, const std::string& source) {
  const json document = parse_json(text, source);
  if (!document.is_object() || !document.contains("format")) return {};
  const json& format = document.at("format");
  return format.is_string() ? format.get<std::string>() : std::string();
}

}  // namespace callfit

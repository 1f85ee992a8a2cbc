#include <callfit/format/json.hpp>
#include <format/json_text.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <set>
#include <vector>

namespace callfit {
namespace {

using nlohmann::json;

/// What json::sax_parse() calls: values are passed over, wrong text ends it.
class Follower : public json::json_sax_t {
 public:
  bool null() override { return value(); }
  bool boolean(bool) override { return value(); }
  bool number_integer(number_integer_t) override { return value(); }
  bool number_unsigned(number_unsigned_t) override { return value(); }
  bool number_float(number_float_t, const string_t&) override { return value(); }
  bool string(string_t&) override { return value(); }
  bool binary(binary_t&) override { return value(); }
  bool parse_error(std::size_t, const std::string&, const json::exception&) override {
    return false;
  }

 protected:
  virtual bool value() { return true; }
};

/// Names keys that stand twice, which JSON libraries silently merge.
class KeyWatch : public Follower {
 public:
  explicit KeyWatch(Faults& faults) : faults_(faults) {}

  bool start_object(std::size_t) override { return open(false); }
  bool start_array(std::size_t) override { return open(true); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }
  bool key(string_t& key) override {
    Container& object = open_.back();
    object.key = key;
    if (!object.keys.insert(key).second)
      faults_.add(child(object.pointer, key), "the key stands twice", "keep one of them");
    return true;
  }

  /// Where the parser stands: the value that it reads next.
  std::string place() const {
    if (open_.empty()) return {};
    const Container& inner = open_.back();
    return inner.is_array ? child(inner.pointer, inner.index) : child(inner.pointer, inner.key);
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

  bool open(bool is_array) {
    open_.push_back({is_array, next_pointer(), {}, {}, 0});
    return true;
  }
  bool close() {
    open_.pop_back();
    return true;
  }
  bool value() override {
    if (!open_.empty() && open_.back().is_array) ++open_.back().index;
    return true;
  }

  Faults& faults_;
  std::vector<Container> open_;
};

/// Looks for the text under the outer object's key "format", and no farther.
class FormatSeeker : public Follower {
 public:
  bool start_object(std::size_t) override { return open(); }
  bool start_array(std::size_t) override { return open(); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }
  bool key(string_t& key) override {
    is_next_ = depth_ == 1 && key == "format";
    return true;
  }
  bool string(string_t& text) override {
    if (is_next_) format = text;
    return value();
  }

  std::string format;
  bool is_found = false;

 private:
  bool open() {
    ++depth_;
    return value();
  }
  bool close() {
    --depth_;
    return true;
  }
  bool value() override {
    is_found = is_next_;
    return !is_found;
  }

  std::size_t depth_ = 0;
  bool is_next_ = false;
};

/// What building the tree of a text would take, from its brackets and commas outside of strings.
struct Extent {
  std::size_t depth = 0;
  std::size_t values = 1;
};

Extent extent_of(std::string_view text) {
  Extent most;
  std::size_t depth = 0;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '\\')
      ++i;
    else if (c == '"')
      quoted = !quoted;
    else if (!quoted && (c == '[' || c == '{'))
      most.depth = std::max(most.depth, ++depth);
    else if (!quoted && (c == ']' || c == '}') && depth > 0)
      --depth;
    if (!quoted && (c == ',' || c == '[' || c == '{')) ++most.values;
  }
  return most;
}

void require_modest(std::string_view text, const std::string& source) {
  const auto refuse = [&](const std::string& what, std::size_t most) {
    throw InputError(Finding{{source, 0, {}}, what, "give at most " + std::to_string(most)});
  };
  if (text.size() > longest_json)
    refuse("is " + std::to_string(text.size()) + " bytes long", longest_json);
  const Extent extent = extent_of(text);
  if (extent.depth > deepest_json)
    refuse("is nested " + std::to_string(extent.depth) + " levels deep", deepest_json);
  if (extent.values > most_json_values)
    refuse("holds " + std::to_string(extent.values) + " values", most_json_values);
}

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
  require_modest(text, source);
  Faults faults(source);
  KeyWatch watch(faults);
  json document;
  // Twice, since the library's own way of watching takes time squared in the length of a list.
  json::sax_parse(text, &watch);
  try {
    document = json::parse(text);
  } catch (const json::parse_error& error) {
    refuse_syntax(text, source, error);
  } catch (const json::out_of_range&) {
    throw InputError(Finding{
        {source, 0, watch.place()}, "the number is too large to read", "give one below 1e308"});
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
  require_modest(text, source);
  FormatSeeker seeker;
  if (!json::sax_parse(text, &seeker) && !seeker.is_found) parse_json(text, source);  // says why
  return seeker.format;
}

}  // namespace callfit

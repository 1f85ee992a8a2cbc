// One value of a JSON document together with its pointer. What is read is checked where it is read:
// kind, range, words, keys. Faults are collected; a value that does not fit reads as a default.
#pragma once

#include <callfit/base/names.hpp>
#include <callfit/base/nearest.hpp>
#include <callfit/format/json.hpp>
#include <format/json_text.hpp>

#include <nlohmann/json.hpp>

#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

namespace callfit {

inline constexpr std::size_t unlimited = std::numeric_limits<std::size_t>::max();

/// What a number may be. `want` says it in words; when empty, the limits are told.
struct Numbers {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  std::string_view want = {};
  bool above_low = false;   ///< the low end itself is not one
  bool below_high = false;  ///< the high end itself is not one

  bool hold(double value) const {
    return (above_low ? value > low : value >= low) && (below_high ? value < high : value <= high);
  }
};

inline constexpr Numbers any_number{};
inline constexpr Numbers share_rule{0, 1, "a share from 0 to 1"};

/// What a text may be; lengths in characters.
struct Texts {
  std::size_t shortest = 0;
  std::size_t longest = unlimited;
  std::string_view want = "a text in quotes";
  bool (*fits)(std::string_view) = nullptr;
};

inline constexpr Texts any_text{};
inline constexpr Texts some_text{1};
inline constexpr Texts person_rule{1, 200, "a name of 1 to 200 characters"};
inline constexpr Texts scheme_name_rule{1, 80, "a name of 1 to 80 characters"};

/// Small letters, digits and underscores, a letter first.
bool is_id(std::string_view text);
/// The same, hyphens too.
bool is_name_id(std::string_view text);

/// How many items a list or an object may have.
struct Sizes {
  std::size_t fewest = 0;
  std::size_t most = unlimited;
  std::string_view want = {};

  bool hold(std::size_t size) const { return size >= fewest && size <= most; }
};

class Fields;

class Part {
 public:
  Part(const nlohmann::json& value, std::string pointer, Faults& faults)
      : value_(value), pointer_(std::move(pointer)), faults_(faults) {}

  const nlohmann::json& value() const { return value_; }
  const std::string& pointer() const { return pointer_; }
  Faults& faults() const { return faults_; }

  void fault(const std::string& what, const std::string& mend) const {
    faults_.add(pointer_, what, mend);
  }
  /// The fault of a value that is not what it should be.
  void misfit(std::string_view want) const;
  /// Whether nothing is wrong with the value or inside it, as far as it was read.
  bool sound() const { return faults_.none_at(pointer_); }

  double number(const Numbers& rule = any_number) const;
  int integer(const Numbers& rule) const;
  std::string text(const Texts& rule = any_text) const;
  bool flag() const;
  template <class Enum>
  Enum word() const;

  /// What `read(fields)` makes of an object; keys that it did not ask for are unknown.
  template <class Read>
  auto object(std::string_view want, Read read) const
      -> std::decay_t<std::invoke_result_t<Read, Fields&>>;

  /// What `read(part)` makes of each item of a list.
  template <class Read>
  auto list(const Sizes& rule, Read read) const
      -> std::vector<std::decay_t<std::invoke_result_t<Read, const Part&>>>;

  /// What `read(part, key)` makes of each entry of an object with keys of the user's own.
  template <class Read>
  auto entries(const Sizes& rule, Read read) const
      -> std::vector<std::decay_t<std::invoke_result_t<Read, const Part&, const std::string&>>>;

 private:
  std::string any_word(const std::vector<std::string>& words) const;

  const nlohmann::json& value_;
  std::string pointer_;
  Faults& faults_;
};

/// The keys of one object. Whatever is asked for is known; refuse_unknown() names the rest.
class Fields {
 public:
  explicit Fields(const Part& part) : part_(part) {}

  const Part& part() const { return part_; }
  bool has(std::string_view key) const;
  /// The place of a key that is there, for faults about it.
  Part at(std::string_view key) const;
  bool sound() const { return part_.sound(); }
  bool sound(std::string_view key) const;
  void missing(std::string_view key, std::string_view want);
  void refuse_unknown() const;

  /// What `read(part)` makes of a key that must be there.
  template <class Read>
  auto needed(std::string_view key, std::string_view want, Read read)
      -> std::decay_t<std::invoke_result_t<Read, const Part&>> {
    if (const auto found = find(key)) return read(*found);
    missing(key, want);
    return {};
  }
  /// What `read(part)` makes of a key that may be left out.
  template <class Read>
  auto maybe(std::string_view key, Read read)
      -> std::optional<std::decay_t<std::invoke_result_t<Read, const Part&>>> {
    if (const auto found = find(key)) return read(*found);
    return std::nullopt;
  }

  double number(std::string_view key, const Numbers& rule = any_number);
  double number_or(std::string_view key, const Numbers& rule, double fallback);
  int integer(std::string_view key, const Numbers& rule);
  std::string text(std::string_view key, const Texts& rule = any_text);
  std::string text_or(std::string_view key, const Texts& rule, const std::string& fallback);
  bool flag_or(std::string_view key, bool fallback);
  template <class Enum>
  Enum word(std::string_view key) {
    return needed(key, either_of(all_words<Enum>()),
                  [](const Part& part) { return part.word<Enum>(); });
  }
  template <class Read>
  auto object(std::string_view key, std::string_view want, Read read) {
    return needed(key, want, [&](const Part& part) { return part.object(want, read); });
  }
  template <class Read>
  auto list(std::string_view key, const Sizes& rule, Read read) {
    return needed(key, rule.want.empty() ? "a list [...]" : rule.want,
                  [&](const Part& part) { return part.list(rule, read); });
  }
  /// A list of objects, each of them as `want` says.
  template <class Read>
  auto objects(std::string_view key, const Sizes& rule, std::string_view want, Read read) {
    return list(key, rule, [&](const Part& item) { return item.object(want, read); });
  }
  template <class Read>
  auto entries(std::string_view key, const Sizes& rule, Read read) {
    return needed(key, rule.want, [&](const Part& part) { return part.entries(rule, read); });
  }

 private:
  std::optional<Part> find(std::string_view key);

  const Part& part_;
  std::vector<std::string_view> known_;
};

template <class Enum>
Enum Part::word() const {
  return from_word<Enum>(any_word(all_words<Enum>())).value_or(Enum{});
}

template <class Read>
auto Part::object(std::string_view want, Read read) const
    -> std::decay_t<std::invoke_result_t<Read, Fields&>> {
  if (!value_.is_object()) {
    misfit(want.empty() ? "an object {...}" : want);
    return {};
  }
  Fields fields(*this);
  auto value = read(fields);
  fields.refuse_unknown();
  return value;
}

template <class Read>
auto Part::list(const Sizes& rule, Read read) const
    -> std::vector<std::decay_t<std::invoke_result_t<Read, const Part&>>> {
  std::vector<std::decay_t<std::invoke_result_t<Read, const Part&>>> values;
  if (!value_.is_array() || !rule.hold(value_.size())) {
    misfit(rule.want.empty() ? "a list [...]" : rule.want);
    return values;
  }
  values.reserve(value_.size());
  for (std::size_t i = 0; i < value_.size(); ++i)
    values.push_back(read(Part(value_[i], child(pointer_, i), faults_)));
  return values;
}

template <class Read>
auto Part::entries(const Sizes& rule, Read read) const
    -> std::vector<std::decay_t<std::invoke_result_t<Read, const Part&, const std::string&>>> {
  std::vector<std::decay_t<std::invoke_result_t<Read, const Part&, const std::string&>>> values;
  if (!value_.is_object() || !rule.hold(value_.size())) {
    misfit(rule.want.empty() ? "an object {...}" : rule.want);
    return values;
  }
  for (const auto& [key, value] : value_.items())
    values.push_back(read(Part(value, child(pointer_, key), faults_), key));
  return values;
}

/// Throws InputError unless the document is an object of format `kind`/1.
void check_format(const nlohmann::json& document, std::string_view kind, const std::string& source);

/// What `read(fields)` makes of a document of format `kind`/1. Throws one InputError with
/// everything that is wrong.
template <class Read>
auto read_document(const nlohmann::json& document, std::string_view kind, const std::string& source,
                   Read read) {
  check_format(document, kind, source);
  Faults faults(source);
  auto value = Part(document, "", faults).object("", [&](Fields& fields) {
    fields.text("format");
    fields.text_or(written_by_key, any_text, "");
    return read(fields);
  });
  faults.settle();
  return value;
}

}  // namespace callfit

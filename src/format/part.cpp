#include <callfit/base/visible.hpp>
#include <format/part.hpp>

#include <algorithm>
#include <cmath>
#include <set>

namespace callfit {
namespace {

using nlohmann::json;

/// The value as JSON, shortened.
std::string shown(const json& value) {
  if (value.is_object()) return "an object";
  if (value.is_array()) return "a list of " + std::to_string(value.size());
  return shortened(value.dump());
}

std::string in_words(double limit) {
  const bool whole = limit == std::floor(limit) && std::abs(limit) < 1e15;
  return whole ? std::to_string(static_cast<long long>(limit)) : json(limit).dump();
}

std::string wanted(const Numbers& rule, const std::string& kind) {
  if (!rule.want.empty()) return std::string(rule.want);
  const bool low = std::isfinite(rule.low);
  const bool high = std::isfinite(rule.high);
  if (low && high && !rule.above_low && !rule.below_high)
    return kind + " from " + in_words(rule.low) + " to " + in_words(rule.high);
  std::string text = kind;
  if (low) text += (rule.above_low ? " above " : " of at least ") + in_words(rule.low);
  if (high) text += (rule.below_high ? " below " : " of at most ") + in_words(rule.high);
  return text;
}

constexpr const char* a_number = "a number";
constexpr const char* a_whole_number = "a whole number";

/// Characters of UTF-8 text: bytes that do not continue one.
std::size_t length_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

bool is_letter(char c) { return c >= 'a' && c <= 'z'; }

bool begins_with_letter_then(std::string_view text, bool hyphens) {
  return !text.empty() && is_letter(text.front()) &&
         std::all_of(text.begin(), text.end(), [hyphens](char c) {
           return is_letter(c) || (c >= '0' && c <= '9') || c == '_' || (hyphens && c == '-');
         });
}

}  // namespace

bool is_id(std::string_view text) { return begins_with_letter_then(text, false); }

bool is_name_id(std::string_view text) { return begins_with_letter_then(text, true); }

void Part::misfit(std::string_view want) const {
  fault(shown(value_) + " does not fit here", "give " + std::string(want));
}

double Part::number(const Numbers& rule) const {
  if (value_.is_number() && rule.hold(value_.get<double>())) return value_.get<double>();
  misfit(wanted(rule, a_number));
  return 0;
}

int Part::integer(const Numbers& rule) const {
  constexpr Numbers fits_int{std::numeric_limits<int>::min(), std::numeric_limits<int>::max()};
  const bool whole = value_.is_number_integer() && fits_int.hold(value_.get<double>());
  if (whole && rule.hold(value_.get<double>())) return value_.get<int>();
  misfit(wanted(rule, a_whole_number));
  return 0;
}

std::string Part::text(const Texts& rule) const {
  if (value_.is_string()) {
    auto text = value_.get<std::string>();
    const std::size_t length = length_of(text);
    if (length >= rule.shortest && length <= rule.longest && (!rule.fits || rule.fits(text)))
      return text;
  }
  misfit(rule.want);
  return {};
}

bool Part::flag() const {
  if (value_.is_boolean()) return value_.get<bool>();
  misfit("true or false");
  return false;
}

std::string Part::any_word(const std::vector<std::string>& words) const {
  if (!value_.is_string()) {
    misfit(either_of(words));
    return {};
  }
  auto text = value_.get<std::string>();
  if (std::find(words.begin(), words.end(), text) != words.end()) return text;
  fault("unknown word " + shown(value_), suggest(text, words));
  return {};
}

bool Fields::has(std::string_view key) const { return part_.value().contains(std::string(key)); }

Part Fields::at(std::string_view key) const {
  return {part_.value().at(std::string(key)), child(part_.pointer(), key), part_.faults()};
}

bool Fields::sound(std::string_view key) const {
  return part_.faults().none_at(child(part_.pointer(), key));
}

std::optional<Part> Fields::find(std::string_view key) {
  known_.push_back(key);
  return has(key) ? std::optional<Part>(at(key)) : std::nullopt;
}

void Fields::missing(std::string_view key, std::string_view want) {
  part_.faults().add(child(part_.pointer(), key), "is missing", "give " + std::string(want));
}

void Fields::refuse_unknown() const {
  const std::set<std::string> known(known_.begin(), known_.end());
  const std::vector<std::string> sorted(known.begin(), known.end());
  for (const auto& [key, ignored] : part_.value().items())
    if (!known.contains(key))
      part_.faults().add(child(part_.pointer(), key), "unknown key", suggest(key, sorted));
}

double Fields::number(std::string_view key, const Numbers& rule) {
  return needed(key, wanted(rule, a_number), [&](const Part& part) { return part.number(rule); });
}

double Fields::number_or(std::string_view key, const Numbers& rule, double fallback) {
  return maybe(key, [&](const Part& part) { return part.number(rule); }).value_or(fallback);
}

int Fields::integer(std::string_view key, const Numbers& rule) {
  return needed(key, wanted(rule, a_whole_number),
                [&](const Part& part) { return part.integer(rule); });
}

std::string Fields::text(std::string_view key, const Texts& rule) {
  return needed(key, rule.want, [&](const Part& part) { return part.text(rule); });
}

std::string Fields::text_or(std::string_view key, const Texts& rule, const std::string& fallback) {
  return maybe(key, [&](const Part& part) { return part.text(rule); }).value_or(fallback);
}

bool Fields::flag_or(std::string_view key, bool fallback) {
  return maybe(key, [](const Part& part) { return part.flag(); }).value_or(fallback);
}

void check_format(const json& document, std::string_view kind, const std::string& source) {
  const std::string wanted = std::string(kind) + "/1";
  Faults faults(source);
  if (!document.is_object())
    faults.add("", "is not a JSON object", "write {\"format\": \"" + wanted + "\", ...}");
  else if (!document.contains("format"))
    faults.add("/format", "is missing", "add \"format\": \"" + wanted + "\"");
  else if (document.at("format") != wanted)
    faults.add("/format", shown(document.at("format")) + " is not what is read here",
               "give a file of format \"" + wanted + "\"");
  faults.settle();
}

}  // namespace callfit

#include <callfit/telling/wording.hpp>

#include <callfit/base/nearest.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

namespace callfit {
namespace {

constexpr auto shipped = std::to_array<Phrase>({
#include "phrases.inc"
});

const Phrase* find(std::string_view key) {
  const auto at = std::find_if(shipped.begin(), shipped.end(),
                               [key](const Phrase& phrase) { return phrase.key == key; });
  return at == shipped.end() ? nullptr : &*at;
}

bool has_name(const Phrase& phrase, std::string_view name) {
  return !name.empty() &&
         fmt::format(" {} ", phrase.names).find(fmt::format(" {} ", name)) != std::string::npos;
}

// Calls `literal` and `name` for the parts of a text in order; a brace that never closes is
// literal.
template <class Literal, class Name>
void split(std::string_view text, const Literal& literal, const Name& name) {
  while (!text.empty()) {
    const auto open = text.find('{');
    const auto close = open == std::string_view::npos ? open : text.find('}', open);
    if (close == std::string_view::npos) return literal(text);
    literal(text.substr(0, open));
    name(text.substr(open + 1, close - open - 1));
    text.remove_prefix(close + 1);
  }
}

}  // namespace

std::span<const Phrase> phrases() { return shipped; }

void Wording::set(const std::string& key, const std::string& text) {
  const Phrase* phrase = find(key);
  if (phrase == nullptr) {
    std::vector<std::string> keys;
    keys.reserve(std::size(shipped));
    for (const Phrase& known : shipped) keys.emplace_back(known.key);
    const std::string near = nearest_word(key, keys);
    throw std::invalid_argument(
        near.empty() ? fmt::format("no phrase is called \"{}\"", key)
                     : fmt::format("no phrase is called \"{}\"; did you mean {}?", key, near));
  }
  split(
      text, [](std::string_view) {},
      [&](std::string_view name) {
        if (has_name(*phrase, name)) return;
        throw std::invalid_argument(
            phrase->names.empty()
                ? fmt::format("\"{}\" takes no names in braces, but has {{{}}}", key, name)
                : fmt::format("\"{}\" has {{{}}}; it may use: {}", key, name, phrase->names));
      });
  changed_[key] = text;
}

std::string Wording::operator()(std::string_view key, Values values) const {
  const Phrase* phrase = find(key);
  if (phrase == nullptr) throw std::out_of_range(fmt::format("no phrase {}", key));
  const auto changed = changed_.find(key);
  std::string out;
  split(
      changed == changed_.end() ? phrase->text : std::string_view(changed->second),
      [&](std::string_view literal) { out += literal; },
      [&](std::string_view name) {
        const auto* at = std::find_if(values.begin(), values.end(),
                                      [&](const auto& value) { return value.first == name; });
        if (at != values.end()) out += at->second;
      });
  return out;
}

}  // namespace callfit

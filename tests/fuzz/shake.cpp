#include "shake.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <iterator>

namespace callfit::fuzz {
namespace {

using nlohmann::json;

/// Changes of a document that stays JSON, so that what lies behind the parser is reached.
class Shaker {
 public:
  explicit Shaker(Dice& dice) : dice_(dice) {}

  void shake(json& document) {
    json* node = &document;
    while (node->is_structured() && !node->empty() && below(8) != 0) {
      auto entry = node->begin();
      std::advance(entry, static_cast<std::ptrdiff_t>(below(node->size())));
      if (below(16) == 0) {
        change_entry(*node, entry);
        return;
      }
      node = &*entry;
    }
    *node = value(document, *node);
  }

 private:
  std::size_t below(std::size_t n) { return dice_() % n; }

  const json& any_part(const json& document) {
    const json* node = &document;
    while (node->is_structured() && !node->empty() && below(4) != 0) {
      auto entry = node->begin();
      std::advance(entry, static_cast<std::ptrdiff_t>(below(node->size())));
      node = &*entry;
    }
    return *node;
  }

  void change_entry(json& parent, json::iterator entry) {
    const bool object = parent.is_object();
    switch (below(3)) {
      case 0:
        parent.erase(entry);
        break;
      case 1:
        if (object)
          parent[entry.key() + "x"] = *entry;
        else
          parent.push_back(json(*entry));
        break;
      default:
        if (object) parent["x"] = json(*entry);
        *entry = nullptr;
    }
  }

  json value(const json& document, const json& old) {
    static const std::vector<json> values{nullptr,
                                          true,
                                          false,
                                          0,
                                          1,
                                          -1,
                                          2,
                                          99,
                                          100,
                                          1e300,
                                          -1e300,
                                          1e-17,
                                          5e-324,
                                          0.5,
                                          1e6,
                                          1e9,
                                          4294967296LL,
                                          -9223372036854775807LL,
                                          "",
                                          "boot",
                                          "x~/",
                                          json::array(),
                                          json::object()};
    switch (below(5)) {
      case 0:
        return any_part(document);
      case 1:
        if (old.is_number()) return old.get<double>() * (below(2) == 0 ? -1 : 1.5);
        if (old.is_string()) return old.get<std::string>() + std::string(1 + below(300), 'y');
        return json::array({old, old});
      case 2:
        if (old.is_number()) return old.get<double>() + (below(2) == 0 ? 1e-9 : 1);
        return static_cast<double>(below(1000)) / 999;
      default:
        return values[below(values.size())];
    }
  }

  Dice& dice_;
};

}  // namespace

std::string shaken_json(std::string_view text, Dice& dice) {
  json document = json::parse(text, nullptr, false);
  if (document.is_discarded()) return {};
  Shaker(dice).shake(document);
  return document.dump(-1, ' ', false, json::error_handler_t::replace);
}

std::string shaken_json(std::string_view text, unsigned seed) {
  Dice dice(seed);
  return shaken_json(text, dice);
}

std::string shaken_bytes(std::string text, const std::vector<std::string>& words,
                         std::string_view other, Dice& dice) {
  const auto below = [&dice](std::size_t n) { return n == 0 ? 0 : dice() % n; };
  const std::size_t at = below(text.size() + 1);
  const std::size_t length = below(std::min<std::size_t>(text.size() - at, 64) + 1);
  switch (below(6)) {
    case 0:
      return text.erase(at, length);
    case 1:
      return text.insert(at, text.substr(at, length));
    case 2:
      return text.replace(at, length, words[below(words.size())]);
    case 3:
      return text.insert(at, words[below(words.size())]);
    case 4:
      return text.replace(at, length, other.substr(below(other.size() + 1), length));
    default:
      return text.replace(at, std::min<std::size_t>(length, 1), 1, static_cast<char>(below(256)));
  }
}

}  // namespace callfit::fuzz
